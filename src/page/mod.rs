//! Sheets laid out on pages.
//!
//! Whoever adds a sheet writes content: a title, a line that says what it is for, and a list of
//! [`block::Block`]s; drawings are [`scene::Scene`]s in model millimetres. [`lay_out`] does the rest: type
//! sizes, lines, columns, page breaks, head, tab, identity line, scales, dimensions, tags, links and
//! page numbers. The module knows nothing of what the sheets are about.
//!
//! - [`block`]: headings, texts, actions, tables, safety messages, hold lines, blanks, figures, columns
//! - [`scene`]: drawings with scales, line types, dimensions, labels that look for their place
//! - [`text`]: bold, links, page numbers in a text; [`text::thousands`], [`text::bound`]
//! - [`model`]: the finished pages, for writers; [`fonts`]: the embedded faces
//!
//! The live width is 171 mm on A4 and Letter alike (six grid columns of 23.5 mm, 6 mm between);
//! `Column::new(2, …)` and `Column::new(4, …)` share it a third to two thirds.
//!
//! # A sheet
//! ```
//! use rungsheet::page::block::{
//!     Action, ActionRow, Actions, Blank, Block, Cell, Column, DoneWhen, Dotted, Figure, Heading, Hold,
//!     Mode, Row, Safety, SignalWord, Table, TableColumn,
//! };
//! use rungsheet::page::scene::{Fill, Line, Place, Scene, Side, Style};
//! use rungsheet::page::text::{Text, thousands};
//! use rungsheet::page::{Identity, JobStrip, Packet, Paper, Sheet, StripMark, Tab, Voice, lay_out};
//!
//! // A drawing: model mm, y up. Dimensions stack outside it, labels find their place.
//! let mut plate = Scene::new("foot plate from above with two holes");
//! plate.rectangle((0.0, 0.0), (180.0, 90.0), Line::HEAVY);
//! plate.filled_rectangle((40.0, 20.0), (100.0, 15.0), Fill::HATCH, Some(Line::THIN));
//! plate.hole((30.0, 62.0), 5.5, "H21");
//! plate.hole((150.0, 62.0), 5.5, "H22");
//! plate.running(
//!     Side::Above,
//!     (0.0, 90.0),
//!     &[((30.0, 62.0), "30".into()), ((150.0, 62.0), "150".into())],
//! );
//! plate.dimension(Side::Right, (180.0, 0.0), (180.0, 90.0), "90");
//! plate.leader((60.0, 27.0), "strip");
//! plate.words((90.0, 75.0), "B1", Place::Centre, Style::BOLD);
//! plate.datum((0.0, 0.0), "zero");
//! plate.view("from above, front at left"); // the scale and a scale bar are added to it
//!
//! // A table: widths, decimal alignment, rules and repeated heads come by themselves.
//! let holes = Table {
//!     columns: vec![
//!         TableColumn::left("id"),
//!         TableColumn::number("X, mm"),
//!         TableColumn::left("drilled"),
//!         TableColumn::centre("done"),
//!     ],
//!     rows: vec![
//!         Row::new(vec![Cell::Head("H21".into()), "30".into(), "from above".into(), Cell::Tick]),
//!         Row::new(vec![Cell::Head("H22".into()), "150.5".into(), Cell::Dash, Cell::Tick]).ends_group(),
//!     ],
//!     ..Table::default()
//! };
//!
//! // Actions: boxes, number, words at 14 pt, "done when" with low and high.
//! let actions = Actions {
//!     mode: Mode::ReadDo,
//!     note: "41 and 42 on one foot, then the next".into(),
//!     boxes: vec!["F1".into(), "F2".into()], // empty for one plain box
//!     rows: vec![
//!         ActionRow::Safety(Safety {
//!             word: SignalWord::Caution,
//!             hazard: "Wet adhesive irritates skin and eyes.".into(),
//!             avoid: "Wear nitrile gloves and eye protection.".into(),
//!             symbol: None,
//!         }),
//!         ActionRow::Action(Action::new(
//!             "41",
//!             "Lay one bead midway, 10 mm short of both ends.",
//!             DoneWhen::limits("bead height", "8", "10", "mm"),
//!         )),
//!         ActionRow::Action(Action::new("42", "Press the block down.", DoneWhen::State("no gap".into()))),
//!     ],
//! };
//!
//! let sheet = Sheet {
//!     anchor: "feet".into(), // other sheets link to it: Text::from("sheet ").and_page("feet")
//!     title: "Set the bonded feet".into(),
//!     purpose: "Feet F1 and F2 go onto their marks, one at a time.".into(),
//!     tab: Some(Tab::new("Step", 7, 10)),
//!     steps: Some(JobStrip {
//!         marks: vec![StripMark::Step, StripMark::Step, StripMark::Wait, StripMark::Step],
//!         here: Some(1),
//!     }),
//!     blocks: vec![
//!         Block::Columns(vec![
//!             Column::new(
//!                 2,
//!                 vec![
//!                     Block::Heading(Heading::new("Have ready")),
//!                     Block::Dotted(Dotted {
//!                         groups: vec![vec![("people".into(), "2".into())]],
//!                     }),
//!                 ],
//!             ),
//!             Column::new(4, vec![Block::Figure(Figure::new(plate, 80.0))]),
//!         ]),
//!         Block::Hold(Hold {
//!             title: "Hold before 41".into(),
//!             condition: "roof dry, 8 °C to 35 °C".into(),
//!             blanks: vec![Blank::value("roof skin", "°C")], // initials, date, time are added
//!         }),
//!         Block::Actions(actions),
//!         Block::Table(holes),
//!         Block::Strong(Text::from("List complete. Next: sheet ").and_page("feet").and(".")),
//!     ],
//!     single_sided: false,
//! };
//!
//! let packet = Packet {
//!     paper: Paper::A4,
//!     identity: Identity {
//!         number: "FV-0417".into(),
//!         title: "Field van solar roof".into(),
//!         revision: "B".into(),
//!         date: "2027-04-12".into(),
//!         fingerprint: "4K7M 9RTX".into(),
//!     },
//!     subject: "Work package".into(),
//!     author: String::new(),
//!     language: "en".into(),
//!     voice: Voice::default(),
//!     sheets: vec![sheet],
//!     duplex: false,
//!     draft: None, // Some("two stop findings are open") marks every page
//!     attachment: None,
//! };
//! let (document, problems) = lay_out(&packet);
//! assert_eq!(document.pages.len(), 1);
//! assert!(problems.is_empty() && document.faults().is_empty());
//! assert_eq!(thousands("2670"), "2\u{202f}670");
//! ```
//!
//! # What is kept without being asked
//! Actions and table rows are not parted; a safety message, a hold line or a figure among actions
//! stays with the action after it; a heading stays with what follows; table heads are repeated;
//! seven actions a page; numbers stay with their units; no last line of one short word. What takes
//! several pages is shared out among them, broken where something new begins. Text that is
//! too long for its place is cut and told of as a [`Problem`]; a title or purpose is then printed in full below
//! the head. A label that finds no free place in a drawing is left out and told of, never laid over another.
pub mod block;
mod booklet;
mod context;
mod draw;
mod each_text;
mod faults;
pub mod fonts;
mod furniture;
mod lay_out;
pub mod model;
mod paginate;
pub mod scene;
mod sheet;
mod strip;
mod tags;
pub mod text;
mod voice;

pub use context::{Problem, ProblemKind};
pub use lay_out::lay_out;
pub use sheet::{Identity, JobStrip, Packet, Paper, Sheet, StripMark, Tab};
pub use voice::{Says, Voice};
