//! `recover`: the build file out of a printed packet.

use super::args::Recover;
use super::fault::Fault;
use super::{Ended, output};
use crate::paper;

/// Largest packet that is opened.
const LARGEST_PACKET: u64 = 256 << 20;

/// Writes the attached build file, byte for byte.
pub fn recover(options: &Recover) -> Result<(), Ended> {
    let fault = |error| Fault::Read(options.packet.clone(), error);
    let size = std::fs::metadata(&options.packet).map_err(fault)?.len();
    if size > LARGEST_PACKET {
        return Err(Fault::TooLarge(options.packet.clone(), size).into());
    }
    let bytes = std::fs::read(&options.packet).map_err(fault)?;
    let found = paper::recover(&bytes)
        .map_err(|why| Fault::NoBuildFile(options.packet.clone(), why.to_string()))?;
    if let Some(path) = &options.output {
        output::keep_apart(&options.packet, path)?;
    }
    output::write(options.output.as_deref(), &found.bytes)?;
    Ok(())
}
