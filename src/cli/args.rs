//! What may be typed.

use crate::compute::figures::csv;
use crate::sheets::Printed;
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Turns one build file into a printed work package for fitting equipment to a vehicle.
#[derive(Parser)]
#[command(name = "rungsheet", version = VERSION, after_help = EXAMPLES)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

const VERSION: &str =
    concat!(env!("CARGO_PKG_VERSION"), " (tables of ", crate::tables::tables_date!(), ")");

const EXAMPLES: &str = "\
First steps:
  rungsheet new                         answer a few questions, get a build file that prints
  rungsheet check bonded.toml           say what is wrong with it, and the figures that matter
  rungsheet print bonded.toml           write bonded.pdf
  rungsheet print bonded.toml --watch   print again on each save, and tell what changed
  rungsheet explain H012                tell what a finding means
  rungsheet keys mount                  tell what a [[mount]] takes

Exit codes: 0 done; 1 a `stop` finding is open; 2 the command was not understood; 3 a file could
not be read or written. Of several build files the gravest counts.

A build file without a date of issue takes that of SOURCE_DATE_EPOCH, seconds since 1970 in UTC,
where it is set.

Results go to standard output, findings to standard error. Nothing is fetched from a network.";

const NEW: &str = "\
Examples:
  rungsheet new                         ask, and write a file named for its start
  rungsheet new my-van.toml             ask, and write my-van.toml
  rungsheet new --start hinged --usual  ask nothing
  rungsheet new --list                  tell what there is to start from";

const CHECK: &str = "\
Examples:
  rungsheet check my-van.toml               findings with their lines, and a summary
  rungsheet check my-van.toml --watch       again on each save, with what changed
  rungsheet check *.toml                    several files at once, a line a finding
  rungsheet check my-van.toml --format line file:line:column: severity: CODE message
  rungsheet check my-van.toml --format json for other programs, on standard output

Exit code 1 where a `stop` is open: the packet may not be used.";

const PRINT: &str = "\
Examples:
  rungsheet print my-van.toml                    write my-van.pdf
  rungsheet print my-van.toml --only cut,step    cut sheets and step sheets alone
  rungsheet print my-van.toml --only 7,L1        step 7, and the sheets of part L1
  rungsheet print my-van.toml --step 7           step 7 alone, to hand to a friend
  rungsheet print my-van.toml -o cover.png       the first page as a picture
  rungsheet print my-van.toml --paper letter     on Letter, whatever the build file says
  rungsheet print - -o - < my-van.toml > a.pdf   from standard input to standard output
  rungsheet print my-van.toml --only template --printed 198.6x199.2
                                                 for a printer that makes 198.6 x 199.2 of 200 mm";

const FIGURES: &str = "\
Examples:
  rungsheet figures my-van.toml                       all as JSON (its shape: DEVELOPERS.md)
  rungsheet figures my-van.toml --csv cut-list        one table
  rungsheet figures my-van.toml --csv holes,shopping -o tables
                                                      several, into the folder tables";

/// The commands.
#[derive(Subcommand)]
pub enum Command {
    /// Write a build file to start from: it asks a few questions.
    New(New),
    /// Say what is wrong with a build file, and the figures that matter.
    Check(Check),
    /// Write the work package.
    Print(Print),
    /// Write blank forms to measure a vehicle by, before there is a build file.
    Survey(Survey),
    /// Write what was really done, the inspections and the booklet for the glovebox.
    Record(Record),
    /// Say what changed between two build files or packets, which sheets go and which come.
    Compare(Compare),
    /// Write every computed number as JSON.
    Figures(Figures),
    /// Tell what a finding's code means.
    Explain(Explain),
    /// Tell every key of a build file: what it takes, its default, where that comes from.
    Keys(Keys),
    /// List materials and parts by name, with where each comes from.
    Tables(TablesOf),
    /// Write the JSON Schema by which an editor completes and checks build files.
    Schema(Schema),
    /// Take the build file out of a printed packet.
    Recover(Recover),
    /// Write a script by which a shell completes commands and options.
    Completions(Completions),
    /// Write the manual page, or a page a command into a folder.
    Man(Man),
}

/// `new`.
#[derive(Args)]
#[command(after_help = NEW)]
pub struct New {
    /// File to write, `-` for standard output; without it the start's name with `.toml`, in this
    /// folder.
    pub file: Option<PathBuf>,
    /// What to start from; `--list` tells them.
    #[arg(long, value_name = "NAME")]
    pub start: Option<String>,
    /// List what there is to start from.
    #[arg(long)]
    pub list: bool,
    /// Title of the packet, at most 25 characters.
    #[arg(long, value_name = "WORDS")]
    pub title: Option<String>,
    /// What the vehicle is, in your own words.
    #[arg(long, value_name = "WORDS")]
    pub vehicle: Option<String>,
    /// Height of the vehicle today, such as `2610 mm` or `8 ft 7 in`.
    #[arg(long, value_name = "LENGTH")]
    pub height: Option<String>,
    /// Highest speed that it is driven at, such as `110 km/h` or `70 mph`.
    #[arg(long, value_name = "SPEED")]
    pub speed: Option<String>,
    /// Unit of your tape measure: millimetres on A4 or inches on Letter.
    #[arg(long, value_enum)]
    pub units: Option<TapeUnits>,
    /// Date of issue, year first; without it today, by the clock in Greenwich.
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
    /// First day of work, year first; without it the Saturday of the week after.
    #[arg(long, value_name = "DATE")]
    pub begin: Option<String>,
    /// Ask nothing: what no flag says is as in the start.
    #[arg(long)]
    pub usual: bool,
    /// Write over a file that is there.
    #[arg(long)]
    pub replace: bool,
}

/// Units of a tape measure.
#[derive(Clone, Copy, ValueEnum, PartialEq, Eq)]
pub enum TapeUnits {
    /// Millimetres
    Mm,
    /// Inches
    In,
}

/// `check`.
#[derive(Args)]
#[command(after_help = CHECK)]
pub struct Check {
    /// Build files; `-` reads standard input.
    #[arg(required = true, value_name = "BUILD")]
    pub builds: Vec<PathBuf>,
    /// How findings are written; without it drawn, of several files a line each.
    #[arg(long, value_enum)]
    pub format: Option<Format>,
    /// Check again whenever a file is saved, and tell what changed.
    #[arg(long, conflicts_with = "format")]
    pub watch: bool,
    #[command(flatten)]
    pub own: Own,
}

/// How findings are written.
#[derive(Clone, Copy, ValueEnum, PartialEq, Eq)]
pub enum Format {
    /// With the line of the build file and a caret.
    Text,
    /// A line each, for editors.
    Line,
    /// JSON.
    Json,
}

/// `print`.
#[derive(Args)]
#[command(after_help = PRINT)]
pub struct Print {
    /// Build files; `-` reads standard input.
    #[arg(required = true, value_name = "BUILD")]
    pub builds: Vec<PathBuf>,
    /// File to write, `-` for standard output, or a folder; without it the build file's name with
    /// `.pdf`, in this folder. A name that ends in `.svg` or `.png` gets one page as a picture.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    #[command(flatten)]
    pub picture: Picture,
    /// One drawing of the page alone, counted from its top, as an SVG file of the drawing's size.
    #[arg(long, value_name = "N")]
    pub drawing: Option<usize>,
    /// Print in spite of `stop` findings; every page is marked as a draft.
    #[arg(long)]
    pub draft: bool,
    /// Only these sheets: a kind by the word on its tab (cover, safety, cut, …), a step by its number
    /// or name, a part by its mark or name (its holes and templates).
    #[arg(long, value_name = "SHEET", value_delimiter = ',')]
    pub only: Vec<String>,
    /// One step to hand to a friend, by its number or name: what it starts from, its sheet, what is
    /// handed back.
    #[arg(long, value_name = "STEP", conflicts_with = "only")]
    pub step: Option<String>,
    /// With --step: the other sheets that the step leans on too, its templates among them.
    #[arg(long, requires = "step")]
    pub with_sheets: bool,
    /// Only what changed since this older build file or packet, with a sheet that tells it; what
    /// differs is marked.
    #[arg(long, value_name = "OLD", conflicts_with_all = ["only", "step"])]
    pub since: Option<PathBuf>,
    /// What 200 mm came out as on this printer, across x down the page in mm: templates are drawn
    /// so that the next print is true. Down is the long bar of a template, across is the short bar
    /// times 4/3.
    #[arg(long, value_name = "WIDTHxHEIGHT")]
    pub printed: Option<Printed>,
    /// Sheet size, instead of the build file's.
    #[arg(long, value_enum)]
    pub paper: Option<PaperSize>,
    /// Print again whenever a file is saved, and tell what changed.
    #[arg(long)]
    pub watch: bool,
    #[command(flatten)]
    pub own: Own,
}

/// Which page becomes a picture, and how fine.
#[derive(Args, Clone, Copy)]
pub struct Picture {
    /// Page of a picture.
    #[arg(long, value_name = "N", default_value_t = 1)]
    pub page: usize,
    /// Dots by inch of a PNG picture.
    #[arg(long, value_name = "DPI", default_value_t = 100.0)]
    pub dpi: f64,
}

/// `record`.
#[derive(Args)]
pub struct Record {
    /// Build file; `-` reads standard input.
    pub build: PathBuf,
    /// File to write; without it the build file's name with `-record.pdf`, in this folder. A name
    /// that ends in `.svg` or `.png` gets one page as a picture.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    #[command(flatten)]
    pub picture: Picture,
    /// Sheet size, instead of the build file's.
    #[arg(long, value_enum)]
    pub paper: Option<PaperSize>,
    #[command(flatten)]
    pub own: Own,
}

/// `compare`.
#[derive(Args)]
pub struct Compare {
    /// The older build file or packet.
    pub old: PathBuf,
    /// The newer build file or packet.
    pub new: PathBuf,
    /// File to write the sheet of changes to.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Sheet size, instead of the build files'.
    #[arg(long, value_enum)]
    pub paper: Option<PaperSize>,
    #[command(flatten)]
    pub own: Own,
}

/// `survey`.
#[derive(Args)]
pub struct Survey {
    /// File to write. A name that ends in `.svg` or `.png` gets one page as a picture.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    #[command(flatten)]
    pub picture: Picture,
    /// Only these forms, by the word on their tab: vehicle, roof, across, along, in-the-way, panels, …
    #[arg(long, value_name = "FORM", value_delimiter = ',')]
    pub only: Vec<String>,
    /// Units beside the blanks.
    #[arg(long, value_enum, default_value_t = SurveyUnits::Metric)]
    pub units: SurveyUnits,
    /// Language of the forms.
    #[arg(long, value_enum, default_value_t = Spoken::En)]
    pub language: Spoken,
    /// Sheet size.
    #[arg(long, value_enum, default_value_t = PaperSize::A4)]
    pub paper: PaperSize,
}

/// Languages of what is printed.
#[derive(Clone, Copy, ValueEnum)]
pub enum Spoken {
    /// English
    En,
    /// German
    De,
}

/// Units beside the blanks of a form.
#[derive(Clone, Copy, ValueEnum)]
pub enum SurveyUnits {
    /// mm, kg, km/h, °C
    Metric,
    /// in, lb, mph, °F
    Imperial,
}

/// Sheet sizes.
#[derive(Clone, Copy, ValueEnum)]
pub enum PaperSize {
    /// 210 x 297 mm
    A4,
    /// 8.5 x 11 in
    Letter,
}

/// `figures`.
#[derive(Args)]
#[command(after_help = FIGURES)]
pub struct Figures {
    /// Build file; `-` reads standard input.
    pub build: PathBuf,
    /// File to write, or a folder for several tables; without it standard output.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Tables as comma-separated values instead of JSON.
    #[arg(long, value_enum, value_delimiter = ',', value_name = "TABLE")]
    pub csv: Vec<csv::Table>,
    #[command(flatten)]
    pub own: Own,
}

impl ValueEnum for csv::Table {
    fn value_variants<'a>() -> &'a [Self] {
        Self::ALL
    }

    fn to_possible_value(&self) -> Option<clap::builder::PossibleValue> {
        Some(clap::builder::PossibleValue::new(self.name()))
    }
}

/// `explain`.
#[derive(Args)]
pub struct Explain {
    /// Code of a finding, such as H012; without it all codes are listed.
    pub code: Option<String>,
}

/// `keys`.
#[derive(Args)]
pub struct Keys {
    /// Only the table of this path, such as `mount` or `mount.tape`, or keys of this name.
    pub path: Option<String>,
    #[command(flatten)]
    pub own: OwnTables,
}

/// `tables`.
#[derive(Args)]
pub struct TablesOf {
    /// Kind of row, such as `section`; without it the kinds are listed.
    pub kind: Option<String>,
    #[command(flatten)]
    pub own: OwnTables,
}

/// `schema`.
#[derive(Args)]
pub struct Schema {
    /// File to write; without it standard output.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    #[command(flatten)]
    pub own: OwnTables,
}

/// Tables and steps of the reader's own.
#[derive(Args, Clone, Default)]
pub struct Own {
    #[command(flatten)]
    pub tables: OwnTables,
    /// Folder of your own templates of steps (.toml), which add to those that come with the program;
    /// one of a known `key` takes its place.
    #[arg(long, value_name = "FOLDER")]
    pub templates: Option<PathBuf>,
}

/// Tables of the reader's own.
#[derive(Args, Clone, Default)]
pub struct OwnTables {
    /// Folder of your own tables (.toml), which add to those that come with the program; a row of a
    /// known name takes its place.
    #[arg(long, value_name = "FOLDER")]
    pub materials: Option<PathBuf>,
}

/// `completions`.
#[derive(Args)]
pub struct Completions {
    /// Which shell.
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

/// `man`.
#[derive(Args)]
pub struct Man {
    /// Folder for a page a command; without it the main page goes to standard output.
    #[arg(short, long, value_name = "FOLDER")]
    pub output: Option<PathBuf>,
}

/// `recover`.
#[derive(Args)]
pub struct Recover {
    /// Printed packet.
    pub packet: PathBuf,
    /// File to write; without it standard output.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}
