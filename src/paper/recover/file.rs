//! Objects of a file, each read when it is asked for and not before.
//!
//! lopdf would read the whole file at once, and trusts field widths and counts of cross-reference
//! streams so far that a few bytes can ask it for all memory. Here the work is bounded by what lies
//! on the way from the trailer to the attached file.

use super::lexer::Lexer;
use lopdf::{Dictionary, Object, Stream};

/// Objects made in all; the way to an attachment needs some hundreds.
const OBJECTS: usize = 400_000;
/// Bytes unpacked in all.
const UNPACKED: usize = 96 << 20;
/// Packed bytes taken out of the file in all.
const COPIED: usize = 128 << 20;
/// Largest single stream, packed or unpacked.
pub(super) const LARGEST_STREAM: usize = 16 << 20;
/// Cross-reference sections followed; each saved revision adds one or two.
const SECTIONS: usize = 200;
/// References followed from one to the next.
const HOPS: usize = 8;

/// Where objects are, one section of a file's history.
enum Section {
    /// Lines of 20 bytes: number of the first, count, index of the first line.
    Table { first: usize, count: usize, at: usize },
    /// Unpacked entries: number of the first, widths of the three fields.
    Stream { first: usize, widths: [usize; 3], data: Vec<u8> },
}

/// Where one object is.
enum Place {
    Offset(usize),
    Inside { container: usize, index: usize },
}

/// A file, its sections from the newest on, and what is left of its budgets.
pub(super) struct File<'a> {
    bytes: &'a [u8],
    sections: Vec<Section>,
    objects: usize,
    unpacked: usize,
    copied: usize,
    /// The object stream unpacked last.
    container: Option<(usize, Dictionary, Vec<u8>)>,
    /// The newest trailer.
    pub trailer: Dictionary,
}

fn whole(dictionary: &Dictionary, key: &[u8]) -> Option<usize> {
    dictionary.get(key).ok()?.as_i64().ok().and_then(|n| usize::try_from(n).ok())
}

impl<'a> File<'a> {
    /// Reads the trailer and the cross-reference sections.
    pub fn open(bytes: &'a [u8]) -> Option<Self> {
        let mut file = Self::bare(bytes);
        let tail = bytes.len().saturating_sub(2048);
        let word = b"startxref";
        let found = bytes[tail..].windows(word.len()).rposition(|w| w == word)?;
        let mut objects = file.objects;
        let start = Lexer::new(bytes, tail + found + word.len(), &mut objects).count()?;
        let mut queue = vec![start];
        let mut seen = Vec::new();
        while let Some(at) = queue.pop() {
            if seen.contains(&at) || seen.len() >= SECTIONS {
                continue;
            }
            seen.push(at);
            let trailer = file.section(at)?;
            // A hybrid file's stream comes before the older table.
            queue.extend(whole(&trailer, b"Prev"));
            queue.extend(whole(&trailer, b"XRefStm"));
            if seen.len() == 1 {
                file.trailer = trailer;
            }
        }
        Some(file)
    }

    /// A file of which nothing is known yet.
    pub fn bare(bytes: &'a [u8]) -> Self {
        Self {
            bytes,
            sections: Vec::new(),
            objects: OBJECTS,
            unpacked: UNPACKED,
            copied: COPIED,
            container: None,
            trailer: Dictionary::new(),
        }
    }

    fn section(&mut self, at: usize) -> Option<Dictionary> {
        let mut lexer = Lexer::new(self.bytes, at, &mut self.objects);
        if lexer.keyword(b"xref").is_none() {
            return self.stream_section(at);
        }
        loop {
            if lexer.keyword(b"trailer").is_some() {
                return lexer.object()?.as_dict().ok().cloned();
            }
            let (first, count) = (lexer.count()?, lexer.count()?);
            lexer.skip_space();
            let at = lexer.at;
            lexer.at = at.checked_add(count.checked_mul(20)?)?;
            if lexer.at > self.bytes.len() || self.sections.len() >= SECTIONS {
                return None;
            }
            self.sections.push(Section::Table { first, count, at });
        }
    }

    fn stream_section(&mut self, at: usize) -> Option<Dictionary> {
        let (_, object) = self.object_at(at, 0)?;
        let Object::Stream(stream) = object else { return None };
        let data = self.unpack(&stream)?;
        let numbers = |key: &[u8]| -> Option<Vec<usize>> {
            let array = stream.dict.get(key).ok()?.as_array().ok()?;
            array.iter().map(|n| usize::try_from(n.as_i64().ok()?).ok()).collect()
        };
        let widths: [usize; 3] = numbers(b"W")?.try_into().ok()?;
        let width: usize = widths.iter().sum();
        if widths.iter().any(|&w| w > 8) || width == 0 {
            return None;
        }
        let index = match numbers(b"Index") {
            Some(index) => index,
            None => vec![0, whole(&stream.dict, b"Size")?],
        };
        let mut rest = data.as_slice();
        for pair in index.chunks_exact(2) {
            let bytes = pair[1].checked_mul(width)?.min(rest.len());
            let (mine, others) = rest.split_at(bytes);
            rest = others;
            if self.sections.len() >= SECTIONS * 8 {
                return None;
            }
            self.sections.push(Section::Stream { first: pair[0], widths, data: mine.to_vec() });
        }
        Some(stream.dict)
    }

    fn place(&self, number: usize) -> Option<Place> {
        for section in &self.sections {
            match section {
                Section::Table { first, count, at } => {
                    let Some(index) = number.checked_sub(*first).filter(|i| i < count) else {
                        continue;
                    };
                    let line = self.bytes.get(at + 20 * index..at + 20 * index + 20)?;
                    let offset = std::str::from_utf8(&line[..10]).ok()?.trim().parse().ok()?;
                    // A free entry ends the search: the object was deleted, or lies in a stream
                    // of the same revision, which comes next.
                    if line[17] == b'n' {
                        return Some(Place::Offset(offset));
                    }
                }
                Section::Stream { first, widths, data } => {
                    let width: usize = widths.iter().sum();
                    let Some(index) = number.checked_sub(*first) else { continue };
                    let Some(entry) = data.chunks_exact(width).nth(index) else { continue };
                    let mut fields = [1, 0, 0];
                    let mut rest = entry;
                    for (field, &width) in fields.iter_mut().zip(widths) {
                        let (mine, others) = rest.split_at(width);
                        rest = others;
                        if width > 0 {
                            *field = mine.iter().fold(0u64, |n, &b| (n << 8) | u64::from(b));
                        }
                    }
                    let [kind, second, third] = fields;
                    let second = usize::try_from(second).ok()?;
                    match kind {
                        1 => return Some(Place::Offset(second)),
                        2 => {
                            let index = usize::try_from(third).ok()?;
                            return Some(Place::Inside { container: second, index });
                        }
                        _ => {}
                    }
                }
            }
        }
        None
    }

    /// The object with this number.
    pub fn get(&mut self, number: usize) -> Option<Object> {
        self.get_within(number, 0)
    }

    fn get_within(&mut self, number: usize, hops: usize) -> Option<Object> {
        if hops > HOPS {
            return None;
        }
        match self.place(number)? {
            Place::Offset(at) => {
                let (found, object) = self.object_at(at, hops)?;
                (found == number).then_some(object)
            }
            Place::Inside { container, index } => {
                if self.container.as_ref().is_none_or(|(held, ..)| *held != container) {
                    let Some(Place::Offset(at)) = self.place(container) else { return None };
                    let (_, Object::Stream(stream)) = self.object_at(at, hops + 1)? else {
                        return None;
                    };
                    let data = self.unpack(&stream)?;
                    self.container = Some((container, stream.dict, data));
                }
                let (_, dictionary, data) = self.container.as_ref()?;
                let count = whole(dictionary, b"N")?;
                let first = whole(dictionary, b"First")?;
                let mut heads = Lexer::new(data, 0, &mut self.objects);
                for _ in 0..=index.min(count) {
                    let (member, offset) = (heads.count()?, heads.count()?);
                    if member == number {
                        let at = first.checked_add(offset)?;
                        return Lexer::new(data, at, &mut self.objects).object();
                    }
                }
                None
            }
        }
    }

    /// Follows a reference, if it is one.
    pub fn resolve(&mut self, object: &Object) -> Option<Object> {
        let mut object = object.clone();
        for _ in 0..HOPS {
            let Object::Reference((number, _)) = object else { return Some(object) };
            object = self.get(number as usize)?;
        }
        None
    }

    /// An entry of a dictionary, followed.
    pub fn entry(&mut self, dictionary: &Dictionary, key: &[u8]) -> Option<Object> {
        self.resolve(dictionary.get(key).ok()?)
    }

    /// An entry that is a dictionary, followed.
    pub fn dictionary(&mut self, dictionary: &Dictionary, key: &[u8]) -> Option<Dictionary> {
        match self.entry(dictionary, key)? {
            Object::Dictionary(found) => Some(found),
            _ => None,
        }
    }

    /// The object that begins at a byte, with its number.
    pub fn object_at(&mut self, at: usize, hops: usize) -> Option<(usize, Object)> {
        let mut lexer = Lexer::new(self.bytes, at, &mut self.objects);
        let number = lexer.object_head()?;
        let object = lexer.object()?;
        let Object::Dictionary(dictionary) = object else { return Some((number, object)) };
        if lexer.keyword(b"stream").is_none() {
            return Some((number, Object::Dictionary(dictionary)));
        }
        let mut start = lexer.at;
        if self.bytes.get(start) == Some(&b'\r') {
            start += 1;
        }
        if self.bytes.get(start) == Some(&b'\n') {
            start += 1;
        }
        let length = match dictionary.get(b"Length") {
            Ok(Object::Reference((length, _))) => {
                let length = self.get_within(*length as usize, hops + 1)?;
                usize::try_from(length.as_i64().ok()?).ok()?
            }
            _ => whole(&dictionary, b"Length")?,
        };
        let content = self.bytes.get(start..start.checked_add(length)?)?;
        if length > LARGEST_STREAM {
            return None;
        }
        self.copied = self.copied.checked_sub(length)?;
        let content = content.to_vec();
        Some((number, Object::Stream(Stream::new(dictionary, content))))
    }

    /// The content of a stream, unpacked; only of forms that packets and tools that rewrite them use.
    pub fn unpack(&mut self, stream: &Stream) -> Option<Vec<u8>> {
        let limit = self.unpacked.min(LARGEST_STREAM);
        let data = match stream.filters() {
            Err(_) if !stream.dict.has(b"Filter") => stream.content.clone(),
            Ok(names) if names.is_empty() => stream.content.clone(),
            Ok(names) if names == [b"FlateDecode"] && harmless(&stream.dict) => {
                stream.decompressed_content_with_limit(limit).ok()?
            }
            _ => return None,
        };
        if data.len() > limit {
            return None;
        }
        self.unpacked -= data.len();
        Some(data)
    }
}

/// Whether a stream's predictor asks for rows that cross-reference and object streams have; the
/// library would set aside whatever is asked for.
fn harmless(dictionary: &Dictionary) -> bool {
    let parameters = match dictionary.get(b"DecodeParms") {
        Err(_) => return true,
        Ok(Object::Dictionary(parameters)) => parameters,
        Ok(_) => return false,
    };
    let at_most = |key: &[u8], most: i64| match parameters.get(key) {
        Err(_) => true,
        Ok(value) => value.as_i64().is_ok_and(|v| (1..=most).contains(&v)),
    };
    at_most(b"Columns", 64) && at_most(b"Colors", 4) && at_most(b"BitsPerComponent", 8)
}
