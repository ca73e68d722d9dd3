//! `completions` and `man`: the command line told to shells and to readers of manuals.

use super::args::{Arguments, Completions, Man};
use super::fault::Fault;
use super::{Ended, output};
use clap::CommandFactory;

/// Writes a completion script.
pub fn completions(options: &Completions) -> Result<(), Ended> {
    let mut script = Vec::new();
    clap_complete::generate(options.shell, &mut Arguments::command(), "rungsheet", &mut script);
    output::write(None, &script)?;
    Ok(())
}

/// Writes the manual's page, or a page a command into a folder.
pub fn man(options: &Man) -> Result<(), Ended> {
    let mut program = Arguments::command();
    program.build();
    let Some(folder) = &options.output else {
        output::write(None, &page(program)?)?;
        return Ok(());
    };
    if !folder.is_dir() {
        let why = format!("{} is no folder", folder.display());
        return Err(Fault::Answer("--output".into(), why).into());
    }
    for command in program.get_subcommands().filter(|command| command.get_name() != "help") {
        let name = format!("rungsheet-{}", command.get_name());
        let page = page(command.clone())?;
        output::write(Some(&folder.join(format!("{name}.1"))), &page)?;
    }
    output::write(Some(&folder.join("rungsheet.1")), &page(program)?)?;
    Ok(())
}

fn page(command: clap::Command) -> Result<Vec<u8>, Fault> {
    let mut page = Vec::new();
    // The date of a page is that of nothing in it; without one it is the same each time.
    let man = clap_mangen::Man::new(command).date("");
    man.render(&mut page).map_err(|error| Fault::Paper(error.to_string()))?;
    Ok(page)
}
