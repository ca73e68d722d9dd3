//! The build file taken out of a packet again, byte for byte.
//!
//! The PDF may come from anywhere. Nothing in it can make this panic, run on or fill the memory: see
//! the limits in [`file`] and [`lexer`]. The catalog's associated files are looked at first, then the
//! name tree of attachments, as both stand in packets of this program and survive tools that rewrite
//! PDF files.

mod file;
mod lexer;

use super::Fault;
use super::pdf::LARGEST_ATTACHMENT;
use super::zlib::adler32;
use file::{File, LARGEST_STREAM};
use lopdf::{Dictionary, Object, Stream};

/// Largest PDF that is looked into; a packet of a hundred sheets is below 1 MB.
const LARGEST_FILE: usize = 256 << 20;

/// Nodes of the name tree that are visited.
const NODES: usize = 256;

/// A file found inside a PDF.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recovered {
    /// Its name, without folders and without characters that a file name may not have.
    pub name: String,
    /// Its content.
    pub bytes: Vec<u8>,
}

/// Takes out the file that travels inside a packet.
///
/// If several are attached, the one marked as the source of the PDF is taken, else the first.
///
/// # Errors
/// [`Fault::NotPdf`] if the bytes are no PDF, are damaged, or the attached file does not have the
/// length or checksum that it should; [`Fault::Encrypted`], [`Fault::NoAttachment`],
/// [`Fault::TooLarge`] as they say.
pub fn recover(bytes: &[u8]) -> Result<Recovered, Fault> {
    if bytes.len() > LARGEST_FILE {
        return Err(Fault::TooLarge { what: "the PDF file", limit: LARGEST_FILE });
    }
    // Readers allow for some bytes of a mail program or a proxy before the header.
    let head = bytes.get(..1024.min(bytes.len())).unwrap_or_default();
    let start = head.windows(5).position(|w| w == b"%PDF-");
    let start = start.ok_or(Fault::NotPdf("it does not begin as PDF files do"))?;
    let bytes = bytes.get(start..).unwrap_or_default();
    let mut file =
        File::open(bytes).ok_or(Fault::NotPdf("its table of contents is missing or damaged"))?;
    if file.trailer.has(b"Encrypt") {
        return Err(Fault::Encrypted);
    }
    let trailer = file.trailer.clone();
    let catalog =
        file.dictionary(&trailer, b"Root").ok_or(Fault::NotPdf("its catalog is damaged"))?;
    let found = specifications(&mut file, &catalog);
    let is_source = |s: &&Dictionary| {
        s.get(b"AFRelationship").and_then(Object::as_name).is_ok_and(|n| n == b"Source")
    };
    let chosen = found.iter().find(is_source).or(found.first()).ok_or(Fault::NoAttachment)?;
    let content = embedded(&mut file, chosen).ok_or(Fault::NoAttachment)?;
    let bytes = checked(&mut file, &content)?;
    Ok(Recovered { name: name(&mut file, chosen), bytes })
}

/// File specifications with a file in them, associated ones first.
fn specifications(file: &mut File, catalog: &Dictionary) -> Vec<Dictionary> {
    let mut entries = Vec::new();
    if let Some(Object::Array(associated)) = file.entry(catalog, b"AF") {
        entries.extend(associated.into_iter().take(NODES));
    }
    if let Some(names) = file.dictionary(catalog, b"Names") {
        let mut queue: Vec<Object> = names.get(b"EmbeddedFiles").cloned().into_iter().collect();
        let mut visited = 0;
        while let Some(node) = queue.pop() {
            visited += 1;
            let Some(Object::Dictionary(node)) = file.resolve(&node) else { continue };
            if let Some(Object::Array(names)) = file.entry(&node, b"Names") {
                entries.extend(names.into_iter().skip(1).step_by(2).take(NODES));
            }
            if let Some(Object::Array(kids)) = file.entry(&node, b"Kids") {
                let room = NODES.saturating_sub(visited + queue.len());
                let kids: Vec<Object> = kids.into_iter().take(room).collect();
                queue.extend(kids.into_iter().rev());
            }
            if visited >= NODES || entries.len() >= NODES {
                break;
            }
        }
    }
    entries
        .iter()
        .filter_map(|entry| match file.resolve(entry) {
            Some(Object::Dictionary(found)) if found.has(b"EF") => Some(found),
            _ => None,
        })
        .collect()
}

fn embedded(file: &mut File, specification: &Dictionary) -> Option<Stream> {
    let files = file.dictionary(specification, b"EF")?;
    for key in [b"F".as_slice(), b"UF"] {
        if let Some(Object::Stream(stream)) = file.entry(&files, key) {
            return Some(stream);
        }
    }
    None
}

/// The content of an embedded file, held against its stated length and the packing's own checksum.
fn checked(file: &mut File, stream: &Stream) -> Result<Vec<u8>, Fault> {
    let damaged = Fault::NotPdf("the attached file is damaged");
    let too_large = Fault::TooLarge { what: "the attached file", limit: LARGEST_ATTACHMENT };
    let size = match file.dictionary(&stream.dict, b"Params") {
        Some(parameters) => file.entry(&parameters, b"Size").and_then(|s| s.as_i64().ok()),
        None => None,
    };
    let largest = i64::try_from(LARGEST_ATTACHMENT.min(LARGEST_STREAM)).unwrap_or(i64::MAX);
    if size.is_some_and(|s| s > largest) {
        return Err(too_large);
    }
    let Some(bytes) = file.unpack(stream) else {
        let packed_only = stream.content.len() <= LARGEST_ATTACHMENT;
        return Err(if packed_only { damaged } else { too_large });
    };
    if size.is_some_and(|s| usize::try_from(s) != Ok(bytes.len())) {
        return Err(damaged);
    }
    // The library gives what it could unpack of a damaged stream; the checksum tells.
    let packed = stream.dict.has(b"Filter");
    if !packed && size.is_none() {
        return Err(damaged);
    }
    if packed && !stream.content.ends_with(&adler32(&bytes).to_be_bytes()) {
        return Err(damaged);
    }
    Ok(bytes)
}

/// A file name that is safe to write to: the last component, without control characters or those that
/// some systems refuse; never empty, never a way to another folder.
fn name(file: &mut File, specification: &Dictionary) -> String {
    let stated = [b"UF".as_slice(), b"F"]
        .into_iter()
        .find_map(|key| lopdf::decode_text_string(&file.entry(specification, key)?).ok())
        .unwrap_or_default();
    let last = stated.rsplit(['/', '\\']).next().unwrap_or_default();
    let clean: String = last
        .chars()
        .filter(|c| !c.is_control() && !matches!(c, ':' | '*' | '?' | '"' | '<' | '>' | '|'))
        .take(120)
        .collect();
    let clean = clean.trim().trim_start_matches('.').trim_end_matches('.');
    if clean.is_empty() { "build.toml".into() } else { clean.into() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_never_lead_to_another_folder() {
        let named = |text: &str| {
            let specification = lopdf::dictionary! { "UF" => lopdf::text_string(text) };
            name(&mut File::bare(b""), &specification)
        };
        assert_eq!(named("../../etc/passwd"), "passwd");
        assert_eq!(named("C:\\dir\\van.toml"), "van.toml");
        assert_eq!(named(".."), "build.toml");
        assert_eq!(named("\u{1}.profile"), "profile");
        assert_eq!(named("D\u{e4}ch\u{7f}er.toml"), "D\u{e4}cher.toml");
    }
}
