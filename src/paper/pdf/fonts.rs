//! Faces in the file: cut down to the glyphs used, with widths and texts for every code.

use super::codes::{Codes, FaceCodes};
use super::content::font_name;
use super::tags::int;
use crate::page::model::FaceId;
use crate::paper::Fault;
use flate2::{Compress, Compression, FlushCompress, Status};
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};
use sha2::{Digest, Sha256};
use std::fmt::Write as _;

/// Adds all faces; gives the font resources of the pages.
pub(super) fn add(file: &mut Document, codes: &Codes) -> Result<Dictionary, Fault> {
    let mut resources = Dictionary::new();
    let mut short = None;
    for face in codes.faces() {
        let encoding = if face.short() {
            let short = short.get_or_insert_with(|| file.add_object(short_codes()));
            Object::Reference(*short)
        } else {
            "Identity-H".into()
        };
        let id = add_face(file, face, encoding)?;
        resources.set(font_name(face.face), id);
    }
    Ok(resources)
}

fn add_face(file: &mut Document, codes: &FaceCodes, encoding: Object) -> Result<ObjectId, Fault> {
    let id = codes.face;
    let program = subsetter::subset(id.bytes(), 0, &codes.remapper)
        .map_err(|e| Fault::Font { face: id.postscript_name(), why: e.to_string() })?;
    let name = format!("{}+{}", tag(&program), id.postscript_name());

    let length = int(program.len());
    let mut program = Stream::new(dictionary! { "Length1" => length }, program);
    pack(&mut program)?;
    let program = file.add_object(program);
    let descriptor = file.add_object(descriptor(id, &name, program));

    let map = if codes.identity() {
        Object::Name(b"Identity".to_vec())
    } else {
        let glyphs = std::iter::once(0).chain(codes.iter().map(|(_, code)| code.glyph));
        let mut map =
            Stream::new(Dictionary::new(), glyphs.flat_map(u16::to_be_bytes).collect::<Vec<u8>>());
        pack(&mut map)?;
        file.add_object(map).into()
    };
    let widths: Vec<Object> =
        codes.iter().map(|(_, code)| Object::Real(code.width as f32)).collect();
    let descendant = file.add_object(dictionary! {
        "Type" => "Font",
        "Subtype" => "CIDFontType2",
        "BaseFont" => Object::Name(name.clone().into_bytes()),
        "CIDSystemInfo" => identity(),
        "FontDescriptor" => descriptor,
        "DW" => 0,
        "W" => vec![Object::Integer(1), Object::Array(widths)],
        "CIDToGIDMap" => map,
    });
    let mut texts = Stream::new(Dictionary::new(), to_unicode(codes).into_bytes());
    pack(&mut texts)?;
    let texts = file.add_object(texts);
    Ok(file.add_object(dictionary! {
        "Type" => "Font",
        "Subtype" => "Type0",
        "BaseFont" => Object::Name(name.into_bytes()),
        "Encoding" => encoding,
        "DescendantFonts" => vec![Object::Reference(descendant)],
        "ToUnicode" => texts,
    }))
}

/// Six capitals from the content, so that two packets' subsets of one face are never taken for the
/// same (ISO 32000-1, 9.6.4).
fn tag(program: &[u8]) -> String {
    Sha256::digest(program).iter().take(6).map(|b| char::from(b'A' + b % 26)).collect()
}

/// Measures of the face in thousandths of an em (ISO 32000-1, table 122).
fn descriptor(id: FaceId, name: &str, program: ObjectId) -> Dictionary {
    let face = id.face();
    let scale =
        |units: i16| (f64::from(units) * 1000.0 / f64::from(id.units_per_em())).round() as i64;
    let bounds = face.global_bounding_box();
    // No table holds the stem; the usual estimate from the weight class is good enough for a value
    // that only matters where the embedded program is not used.
    let stem = 50 + (f64::from(face.weight().to_number()) / 65.0).powi(2).round() as i64;
    dictionary! {
        "Type" => "FontDescriptor",
        "FontName" => Object::Name(name.as_bytes().to_vec()),
        // Symbolic: codes are glyph numbers, of no standard character set.
        "Flags" => 4,
        "FontBBox" => [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max]
            .map(|v| Object::Integer(scale(v))).to_vec(),
        "ItalicAngle" => 0,
        "Ascent" => scale(face.ascender()),
        "Descent" => scale(face.descender()),
        "CapHeight" => scale(face.capital_height().unwrap_or_else(|| face.ascender())),
        "StemV" => stem,
        "FontFile2" => program,
    }
}

/// The map of codes of one byte: each is the number of its character (ISO 32000-1, 9.7.5.4).
fn short_codes() -> Stream {
    let entries = dictionary! {
        "Type" => "CMap",
        "CMapName" => "One-Byte-Identity",
        "CIDSystemInfo" => identity(),
    };
    let map = "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CIDSystemInfo\n\
        <</Registry (Adobe)/Ordering (Identity)/Supplement 0>> def\n\
        /CMapName /One-Byte-Identity def\n/CMapType 1 def\n/WMode 0 def\n\
        1 begincodespacerange\n<00><FF>\nendcodespacerange\n\
        1 begincidrange\n<00><FF> 0\nendcidrange\n\
        endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
    Stream::new(entries, map.into())
}

/// Characters numbered as the file likes.
fn identity() -> Dictionary {
    dictionary! {
        "Registry" => Object::string_literal("Adobe"),
        "Ordering" => Object::string_literal("Identity"),
        "Supplement" => 0,
    }
}

/// The `ToUnicode` map: the text of every code (ISO 32000-1, 9.10.3).
fn to_unicode(codes: &FaceCodes) -> String {
    let digits = if codes.short() { 2 } else { 4 };
    let (first, last) = (&"0000"[..digits], &"FFFF"[..digits]);
    let mut map = format!(
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CIDSystemInfo\n\
         <</Registry (Adobe)/Ordering (UCS)/Supplement 0>> def\n/CMapName /Adobe-Identity-UCS def\n\
         /CMapType 2 def\n1 begincodespacerange\n<{first}><{last}>\nendcodespacerange\n",
    );
    let lines: Vec<String> = codes
        .iter()
        .map(|(code, entry)| {
            let mut line = format!("<{code:0digits$X}><");
            for unit in entry.text.encode_utf16() {
                // Writing to a string cannot fail.
                let _ = write!(line, "{unit:04X}");
            }
            line + ">\n"
        })
        .collect();
    // A section holds 100 lines at most.
    for section in lines.chunks(100) {
        let _ = writeln!(map, "{} beginbfchar", section.len());
        map.extend(section.iter().map(String::as_str));
        map.push_str("endbfchar\n");
    }
    map.push_str("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    map
}

/// Compresses a stream where that makes it shorter.
pub(super) fn pack(stream: &mut Stream) -> Result<(), Fault> {
    Packer::default().pack(stream)
}

/// Compresses one stream after the other: setting up takes as long as a small stream.
pub(super) struct Packer(Compress);

impl Default for Packer {
    /// At the greatest level packing takes near twice the time for one part in 300 of the bytes.
    fn default() -> Self {
        Self(Compress::new(Compression::new(6), true))
    }
}

impl Packer {
    /// Compresses a stream where that makes it shorter.
    pub fn pack(&mut self, stream: &mut Stream) -> Result<(), Fault> {
        let content = &stream.content;
        let mut packed = Vec::with_capacity(content.len() / 2 + 64);
        self.0.reset();
        loop {
            let from = self.0.total_in() as usize;
            let status = self
                .0
                .compress_vec(&content[from..], &mut packed, FlushCompress::Finish)
                .map_err(|error| Fault::Library(error.to_string()))?;
            if status == Status::StreamEnd {
                break;
            }
            packed.reserve(packed.capacity());
        }
        // What the entry for the filter takes.
        if packed.len() + "/Filter/FlateDecode".len() < content.len() {
            packed.shrink_to_fit();
            stream.dict.set("Filter", "FlateDecode");
            stream.set_content(packed);
        }
        Ok(())
    }
}
