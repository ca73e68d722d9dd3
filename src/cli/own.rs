//! Tables of the reader's own, beside those that come with the program.

use super::args::Own;
use super::fault::Fault;
use crate::tables::Tables;
use std::borrow::Cow;

/// The tables to use.
pub fn tables(own: &Own) -> Result<Cow<'static, Tables>, Fault> {
    let _ = own;
    Ok(Cow::Borrowed(Tables::builtin()))
}
