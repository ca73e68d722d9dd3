//! Objects to a file: streams as they are, everything else packed in object streams, and a table of
//! where each is (ISO 32000-1, 7.5.7 and 7.5.8).
//!
//! Each object is written once and dropped; the streams are packed side by side. lopdf's own saving
//! copies every object and writes it four times over, and leaves the table unpacked: for a packet of
//! 87 sheets four times the time, 25 MB and a tenth of the file.

use super::operators::put_integer;
use super::tags::int;
use super::{Packer, pack};
use crate::paper::Fault;
use lopdf::{Dictionary, Document as File, Object, Stream, StringFormat, dictionary};
use std::collections::BTreeMap;

/// Objects in one object stream.
const TOGETHER: usize = 1000;

/// Where an object is.
#[derive(Clone, Copy)]
enum Place {
    /// Nowhere: number 0, the head of the list of free ones.
    Free,
    /// From this byte on.
    At(usize),
    /// In the object stream of this number, at this place in it.
    In(usize, usize),
}

/// Writes the file. Objects have generation 0, as lopdf gives them; `others` gives objects whose
/// numbers were reserved.
pub(super) fn save(mut file: File, others: impl FnOnce(&mut Gathered)) -> Result<Vec<u8>, Fault> {
    let mut out = format!("%PDF-{}\n", file.version).into_bytes();
    // Tells programs that move files that this one is not text.
    out.extend(b"%\xE2\xE3\xCF\xD3\n");
    let first = file.max_id as usize + 1;
    let mut gathered =
        Gathered { first, streams: Vec::new(), places: BTreeMap::from([(0, Place::Free)]) };
    let mut bytes = Vec::new();
    for ((number, _), object) in std::mem::take(&mut file.objects) {
        if let Object::Stream(stream) = object {
            gathered.places.insert(number as usize, Place::At(out.len()));
            put_stream(&mut out, number as usize, &stream);
        } else {
            bytes.clear();
            put(&mut bytes, &object);
            gathered.add(number, &bytes);
        }
    }
    others(&mut gathered);
    let Gathered { mut places, streams, .. } = gathered;
    for (number, stream) in (first..).zip(packed(streams)?) {
        places.insert(number, Place::At(out.len()));
        put_stream(&mut out, number, &stream);
    }
    let start = out.len();
    let number = places.last_key_value().map_or(first, |(last, _)| last + 1);
    places.insert(number, Place::At(start));
    let table = table(&places, std::mem::take(&mut file.trailer))?;
    put_stream(&mut out, number, &table);
    out.extend(format!("startxref\n{start}\n%%EOF").bytes());
    Ok(out)
}

/// Objects on their way into object streams.
pub(super) struct Gathered {
    /// Number of the first object stream.
    first: usize,
    streams: Vec<Together>,
    places: BTreeMap<usize, Place>,
}

impl Gathered {
    /// Adds an object that is no stream.
    pub fn add(&mut self, number: u32, object: &[u8]) {
        if self.streams.last().is_none_or(|s| s.count == TOGETHER) {
            self.streams.push(Together::default());
        }
        let stream = self.first + self.streams.len() - 1;
        if let Some(last) = self.streams.last_mut() {
            self.places.insert(number as usize, Place::In(stream, last.count));
            last.add(number, object);
        }
    }
}

/// Objects of one object stream: their numbers and offsets, and the objects themselves.
#[derive(Default)]
struct Together {
    heads: Vec<u8>,
    body: Vec<u8>,
    count: usize,
}

impl Together {
    fn add(&mut self, number: u32, object: &[u8]) {
        for value in [i64::from(number), int(self.body.len())] {
            put_integer(&mut self.heads, value);
            self.heads.push(b' ');
        }
        self.body.extend(object);
        self.body.push(b' ');
        self.count += 1;
    }

    fn pack(self, packer: &mut Packer) -> Result<Stream, Fault> {
        let entries = dictionary! {
            "Type" => "ObjStm",
            "N" => int(self.count),
            "First" => int(self.heads.len()),
        };
        let mut stream = Stream::new(entries, [self.heads, self.body].concat());
        packer.pack(&mut stream)?;
        Ok(stream)
    }
}

/// Each processor packs a share.
fn packed(streams: Vec<Together>) -> Result<Vec<Stream>, Fault> {
    super::share_out(streams, |packer, together: Together| together.pack(packer))
}

/// The cross-reference stream, which is the trailer too.
fn table(places: &BTreeMap<usize, Place>, trailer: Dictionary) -> Result<Stream, Fault> {
    let size = places.last_key_value().map_or(0, |(last, _)| last + 1);
    let largest = places.values().map(|p| match *p {
        Place::Free => 0,
        Place::At(offset) => offset,
        Place::In(stream, _) => stream,
    });
    let bytes = largest.max().unwrap_or(0).checked_ilog2().unwrap_or(0) as usize / 8 + 1;
    let width = 1 + bytes + 2;
    let mut rows = Vec::with_capacity(size * (width + 1));
    let mut above = vec![0; width];
    for number in 0..size {
        let (kind, field, index) = match places.get(&number).copied().unwrap_or(Place::Free) {
            Place::Free => (0, 0, usize::from(u16::MAX)),
            Place::At(offset) => (1, offset, 0),
            Place::In(stream, index) => (2, stream, index),
        };
        let mut row = vec![kind];
        row.extend(&field.to_be_bytes()[size_of::<usize>() - bytes..]);
        row.extend(&index.to_be_bytes()[size_of::<usize>() - 2..]);
        // Differences from the row above (PNG's filter 2) pack to a tenth.
        rows.push(2);
        rows.extend(row.iter().zip(&above).map(|(new, old): (&u8, &u8)| new.wrapping_sub(*old)));
        above = row;
    }
    let mut entries = trailer;
    entries.set("Type", "XRef");
    entries.set("Size", int(size));
    entries.set("W", vec![1.into(), int(bytes).into(), 2.into()]);
    let mut table = Stream::new(entries, rows);
    table.dict.set("DecodeParms", dictionary! { "Predictor" => 12, "Columns" => int(width) });
    pack(&mut table)?;
    if !table.dict.has(b"Filter") {
        // Too small a file to gain by it; the differences are only undone with the filter.
        table.set_content(crate::paper::zlib::stored(&table.content));
        table.dict.set("Filter", "FlateDecode");
    }
    Ok(table)
}

fn put_stream(out: &mut Vec<u8>, number: usize, stream: &Stream) {
    out.extend(format!("{number} 0 obj\n").bytes());
    put_dictionary(out, &stream.dict);
    out.extend(b"stream\n");
    out.extend(&stream.content);
    out.extend(b"\nendstream\nendobj\n");
}

/// An object as PDF writes it (ISO 32000-1, 7.3), without a space too many.
pub(super) fn put(out: &mut Vec<u8>, object: &Object) {
    match object {
        Object::Null => out.extend(b"null"),
        Object::Boolean(value) => out.extend(value.to_string().bytes()),
        Object::Integer(value) => put_integer(out, *value),
        Object::Real(value) => out.extend(value.to_string().bytes()),
        Object::Name(name) => put_name(out, name),
        Object::String(text, StringFormat::Literal) => put_text(out, text),
        Object::String(text, StringFormat::Hexadecimal) => {
            out.push(b'<');
            for byte in text {
                out.extend(format!("{byte:02X}").bytes());
            }
            out.push(b'>');
        }
        Object::Array(values) => {
            out.push(b'[');
            for (index, value) in values.iter().enumerate() {
                if index > 0 && needs_space(value) {
                    out.push(b' ');
                }
                put(out, value);
            }
            out.push(b']');
        }
        Object::Dictionary(entries) => put_dictionary(out, entries),
        // Streams are never part of another object.
        Object::Stream(stream) => put_dictionary(out, &stream.dict),
        Object::Reference((number, generation)) => {
            out.extend(format!("{number} {generation} R").bytes());
        }
    }
}

/// Whether a value begins like a word, so that it needs a space after a word.
fn needs_space(value: &Object) -> bool {
    matches!(
        value,
        Object::Null
            | Object::Boolean(_)
            | Object::Integer(_)
            | Object::Real(_)
            | Object::Reference(_)
    )
}

fn put_dictionary(out: &mut Vec<u8>, entries: &Dictionary) {
    out.extend(b"<<");
    for (key, value) in entries {
        put_name(out, key);
        if needs_space(value) {
            out.push(b' ');
        }
        put(out, value);
    }
    out.extend(b">>");
}

fn put_name(out: &mut Vec<u8>, name: &[u8]) {
    out.push(b'/');
    for &byte in name {
        if byte.is_ascii_graphic() && !b"()<>[]{}/%#".contains(&byte) {
            out.push(byte);
        } else {
            out.extend(format!("#{byte:02X}").bytes());
        }
    }
}

fn put_text(out: &mut Vec<u8>, text: &[u8]) {
    out.push(b'(');
    for &byte in text {
        super::operators::put_in_string(out, byte);
    }
    out.push(b')');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_object_is_read_back() {
        let mut file = File::with_version("1.7");
        let odd = dictionary! {
            "Null" => Object::Null,
            "Yes" => true,
            "Whole" => -12,
            "Part" => Object::Real(0.125),
            "Na me#(" => Object::Name(b"a/b c\xFF".to_vec()),
            "Text" => Object::string_literal("(a\\b\r\n)"),
            "Hex" => Object::String(vec![0, 255, 16], StringFormat::Hexadecimal),
            "List" => vec![1.into(), Object::Null, "N".into(), Object::Array(vec![2.into()]), 3.into()],
            "Inside" => dictionary! { "To" => Object::Reference((1, 0)) },
        };
        let id = file.add_object(odd.clone());
        let stream = file.add_object(Stream::new(Dictionary::new(), b"endstream (".to_vec()));
        // More than go together, so that there are several object streams.
        let many: Vec<_> = (0..2100).map(|n: i64| file.add_object(Object::Integer(n))).collect();
        let catalog = file.add_object(dictionary! { "Type" => "Catalog" });
        file.trailer.set("Root", catalog);
        let bytes = save(file, |_| ()).expect("saved");
        let read = File::load_mem(&bytes).expect("reads");
        assert_eq!(read.get_dictionary(id).expect("there"), &odd);
        let content = &read.get_object(stream).and_then(Object::as_stream).expect("there").content;
        assert_eq!(content, b"endstream (");
        for (n, id) in many.into_iter().enumerate() {
            let value = read.get_object(id).and_then(Object::as_i64).expect("there");
            assert_eq!(usize::try_from(value), Ok(n));
        }
    }
}
