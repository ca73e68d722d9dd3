//! What the file says about itself: metadata in both forms, the attached build file, and the claim of
//! PDF/UA-1 and PDF/A-3b.

use super::fonts::pack;
use super::tags::{int, text};
use crate::page::model::{Attachment, Document};
use crate::paper::Fault;
use crate::paper::zlib::stored;
use lopdf::{Dictionary, Document as File, Object, ObjectId, Stream, StringFormat, dictionary};
use sha2::{Digest, Sha256};
use std::fmt::Write;

/// Name and version of this program, as maker of the file.
const MAKER: &str = concat!("rungsheet ", env!("CARGO_PKG_VERSION"));

/// Day of issue as (year, month, day) in digits, if it is a real `YYYY-MM-DD`.
fn day(date: &str) -> Option<[&str; 3]> {
    let parts: Vec<&str> = date.split('-').collect();
    let [year, month, day] = parts[..] else { return None };
    let digits = |part: &str, length: usize, most: u32| {
        part.len() == length
            && part.bytes().all(|b| b.is_ascii_digit())
            && part.parse().is_ok_and(|n: u32| (1..=most).contains(&n))
    };
    let sound = digits(year, 4, 9999) && digits(month, 2, 12) && digits(day, 2, 31);
    sound.then_some([year, month, day])
}

/// A day as PDF writes dates. Only the day is known, so it is midnight, in universal time.
fn pdf_date(date: &str) -> Option<Object> {
    day(date).map(|[y, m, d]| Object::string_literal(format!("D:{y}{m}{d}000000Z")))
}

/// The document information dictionary; says what [`xmp`] says.
pub(super) fn info(document: &Document) -> Dictionary {
    let about = &document.metadata;
    let mut info = dictionary! {
        "Title" => text(&document.title),
        "Creator" => text(MAKER),
        "Producer" => text(MAKER),
    };
    let keywords = keywords(document);
    for (key, value) in
        [("Author", &about.author), ("Subject", &about.subject), ("Keywords", &keywords)]
    {
        if !value.is_empty() {
            info.set(key, text(value));
        }
    }
    if let Some(date) = pdf_date(&about.date) {
        info.set("CreationDate", date.clone());
        info.set("ModDate", date);
    }
    info
}

/// Words to find the packet by, its number, revision and fingerprint among them.
fn keywords(document: &Document) -> String {
    let about = &document.metadata;
    let mut words = about.keywords.clone();
    for (what, value) in
        [("number", &about.number), ("revision", &about.revision), ("build", &about.fingerprint)]
    {
        if !value.is_empty() {
            words.push(format!("{what} {value}"));
        }
    }
    words.join(", ")
}

/// Text for XML: the five signs escaped, and characters that XML 1.0 has no place for left out.
fn escape(value: &str) -> String {
    let mut out = String::with_capacity(value.len());
    for c in value.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&apos;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            _ => out.push(c),
        }
    }
    out
}

/// What `pdfuaid:part` is. A description of its own, and the first, because some readers look for what
/// they do not know before they read on.
const EXTENSION: &str = "<rdf:Description rdf:about=\"\"\n \
    xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\"\n \
    xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\"\n \
    xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n\
    <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">\n\
    <pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>\n\
    <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>\n\
    <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>\n\
    <pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType=\"Resource\">\n\
    <pdfaProperty:name>part</pdfaProperty:name>\n\
    <pdfaProperty:valueType>Integer</pdfaProperty:valueType>\n\
    <pdfaProperty:category>internal</pdfaProperty:category>\n\
    <pdfaProperty:description>Part of ISO 14289 that the file follows</pdfaProperty:description>\n\
    </rdf:li></rdf:Seq></pdfaSchema:property>\n\
    </rdf:li></rdf:Bag></pdfaExtension:schemas>\n\
    </rdf:Description>\n";

/// The XMP packet (ISO 16684-1), with the claim of both standards. PDF/A-3 knows no property of
/// PDF/UA, so the packet also describes that one (ISO 19005-3, 6.6.2.3).
pub(super) fn xmp(document: &Document) -> String {
    let about = &document.metadata;
    let mut x = String::from(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
         <x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n\
         <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n",
    );
    x.push_str(EXTENSION);
    x.push_str(
        "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n \
         xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\"\n \
         xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"\n \
         xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\">\n\
         <pdfaid:part>3</pdfaid:part>\n<pdfaid:conformance>B</pdfaid:conformance>\n\
         <pdfuaid:part>1</pdfuaid:part>\n<dc:format>application/pdf</dc:format>\n",
    );
    // Writing to a string cannot fail.
    let _ = writeln!(
        x,
        "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>\n\
         <dc:language><rdf:Bag><rdf:li>{}</rdf:li></rdf:Bag></dc:language>",
        escape(&document.title),
        escape(&document.language)
    );
    if !about.author.is_empty() {
        let author = escape(&about.author);
        let _ =
            writeln!(x, "<dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator>");
    }
    if !about.subject.is_empty() {
        let _ = writeln!(
            x,
            "<dc:description><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:description>",
            escape(&about.subject)
        );
    }
    let keywords = keywords(document);
    if !keywords.is_empty() {
        let _ = writeln!(x, "<pdf:Keywords>{}</pdf:Keywords>", escape(&keywords));
    }
    let _ = writeln!(
        x,
        "<pdf:Producer>{MAKER}</pdf:Producer>\n<xmp:CreatorTool>{MAKER}</xmp:CreatorTool>"
    );
    if let Some([year, month, day]) = day(&about.date) {
        for property in ["CreateDate", "ModifyDate", "MetadataDate"] {
            let _ = writeln!(x, "<xmp:{property}>{year}-{month}-{day}T00:00:00Z</xmp:{property}>");
        }
    }
    x.push_str("</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n");
    x
}

/// Adds the attached file; gives its file specification (ISO 32000-1, 7.11; ISO 19005-3, 6.8).
pub(super) fn attach(
    file: &mut File,
    document: &Document,
    attachment: &Attachment,
) -> Result<ObjectId, Fault> {
    let mut parameters = dictionary! { "Size" => int(attachment.bytes.len()) };
    if let Some(date) = pdf_date(&document.metadata.date) {
        parameters.set("ModDate", date);
    }
    let mut stream = Stream::new(
        dictionary! {
            "Type" => "EmbeddedFile",
            "Subtype" => Object::Name(attachment.mime.clone().into_bytes()),
            "Params" => parameters,
        },
        attachment.bytes.to_vec(),
    );
    pack(&mut stream)?;
    if !stream.dict.has(b"Filter") {
        // Packed in any case, for the checksum that packing brings: recovery holds it against what
        // comes out.
        stream.set_content(stored(&attachment.bytes));
        stream.dict.set("Filter", "FlateDecode");
    }
    let stream = file.add_object(stream);
    Ok(file.add_object(dictionary! {
        "Type" => "Filespec",
        "F" => text(&attachment.name),
        "UF" => text(&attachment.name),
        "Desc" => text(&attachment.description),
        "AFRelationship" => "Source",
        "EF" => dictionary! { "F" => stream, "UF" => stream },
    }))
}

/// A stand-in for the file's identifiers, as long as [`seal`] makes them.
pub(super) fn unsealed() -> Object {
    let id = Object::String(vec![0; ID_LENGTH], StringFormat::Hexadecimal);
    Object::Array(vec![id.clone(), id])
}

const ID_LENGTH: usize = 16;

/// Puts a hash of the whole file in place of both stand-ins near its end.
pub(super) fn seal(bytes: &mut [u8]) {
    let digest = Sha256::digest(&*bytes);
    let hex: String = digest.iter().take(ID_LENGTH).fold(String::new(), |mut hex, byte| {
        let _ = write!(hex, "{byte:02X}");
        hex
    });
    let blank = format!("<{}>", "00".repeat(ID_LENGTH));
    let mut end = bytes.len();
    for _ in 0..2 {
        let found = bytes[..end].windows(blank.len()).rposition(|w| w == blank.as_bytes());
        let Some(at) = found else { return };
        bytes[at + 1..=at + hex.len()].copy_from_slice(hex.as_bytes());
        end = at;
    }
}
