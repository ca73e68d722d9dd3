//! A tagged PDF file held against the rules it claims to keep, on what lopdf reads of it.
//!
//! Written from the standards' lists of rules (ISO 14289-1, ISO 19005-3), not from the writer, so it
//! also judges files that this program did not write.

use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object, ObjectId};
use std::collections::{BTreeMap, BTreeSet};

/// What reading the structure of a file gives.
#[derive(Debug, Default)]
pub struct Report {
    /// Rules that are broken; empty for a sound file.
    pub faults: Vec<String>,
    /// Structure types in the order of reading, with their depth.
    pub tags: Vec<(usize, String)>,
    /// Text by page and marked-content number.
    pub texts: BTreeMap<(usize, i64), String>,
    /// Text of all tagged content in the order of reading, a line for each piece.
    pub reading: Vec<String>,
}

struct Reader<'a> {
    file: &'a Document,
    pages: Vec<ObjectId>,
    report: Report,
    /// Marked content that an element has taken.
    taken: BTreeMap<(usize, i64), ObjectId>,
    /// Annotations that an element has taken.
    annotations: BTreeMap<ObjectId, ObjectId>,
    headings: Vec<u32>,
}

/// Reads the file and says what is wrong.
pub fn check(bytes: &[u8]) -> Report {
    let file = Document::load_mem(bytes).expect("lopdf reads the file");
    let pages = file.page_iter().collect();
    let mut reader = Reader {
        file: &file,
        pages,
        report: Report::default(),
        taken: BTreeMap::new(),
        annotations: BTreeMap::new(),
        headings: Vec::new(),
    };
    reader.header(bytes);
    reader.pages();
    reader.tree();
    reader.parents();
    reader.catalog();
    reader.report
}

fn name(dictionary: &Dictionary, key: &[u8]) -> String {
    let found = dictionary.get(key).and_then(Object::as_name);
    String::from_utf8_lossy(found.unwrap_or_default()).into_owned()
}

impl<'a> Reader<'a> {
    fn fault(&mut self, what: impl Into<String>) {
        self.report.faults.push(what.into());
    }

    fn resolve(&self, object: &'a Object) -> &'a Object {
        self.file.dereference(object).map_or(object, |(_, found)| found)
    }

    fn entry(&self, dictionary: &'a Dictionary, key: &[u8]) -> Option<&'a Object> {
        dictionary.get(key).ok().map(|found| self.resolve(found))
    }

    fn dictionary(&self, dictionary: &'a Dictionary, key: &[u8]) -> Option<&'a Dictionary> {
        self.entry(dictionary, key).and_then(|found| found.as_dict().ok())
    }

    fn list(&self, dictionary: &'a Dictionary, key: &[u8]) -> Vec<&'a Object> {
        match self.entry(dictionary, key) {
            Some(Object::Array(items)) => items.iter().collect(),
            Some(other) => vec![other],
            None => Vec::new(),
        }
    }

    /// ISO 19005-3, 6.1.2 and 6.1.3.
    fn header(&mut self, bytes: &[u8]) {
        let mark = bytes.split(|&b| b == b'\n').nth(1).unwrap_or_default();
        if !bytes.starts_with(b"%PDF-1.7\n") || mark.len() < 5 || mark[0] != b'%' {
            self.fault("header");
        }
        if mark.iter().skip(1).take(4).any(|&b| b < 128) {
            self.fault("binary mark");
        }
        if !bytes.ends_with(b"%%EOF") {
            self.fault("something after the end");
        }
        if self.file.trailer.get(b"ID").and_then(Object::as_array).map_or(0, Vec::len) != 2 {
            self.fault("no identifier");
        }
    }

    /// Every mark tagged or an artifact, never one in the other; text read through `ToUnicode`.
    fn pages(&mut self) {
        for (number, &id) in self.pages.clone().iter().enumerate() {
            let page = self.file.get_dictionary(id).expect("a page");
            let fonts = self.file.get_page_fonts(id).expect("fonts");
            let maps: BTreeMap<Vec<u8>, Texts> = fonts
                .iter()
                .map(|(name, font)| (name.clone(), to_unicode(self.file, font)))
                .collect();
            let content = Content::decode(&self.file.get_page_content(id)).expect("content");
            let mut open: Vec<Option<i64>> = Vec::new();
            let mut depth = 0;
            let mut font = Vec::new();
            for operation in &content.operations {
                let operands = &operation.operands;
                match operation.operator.as_str() {
                    "BDC" => {
                        let properties = operands[1].as_dict().expect("properties in place");
                        let mcid = properties.get(b"MCID").and_then(Object::as_i64).ok();
                        let artifact = operands[0].as_name().expect("a tag") == b"Artifact";
                        if (mcid.is_some() || artifact) && !open.is_empty() {
                            self.fault(format!("page {number}: marked content inside another"));
                        }
                        if open.is_empty() && mcid.is_none() && !artifact {
                            self.fault(format!("page {number}: neither tagged nor an artifact"));
                        }
                        if let Some(mcid) = mcid
                            && self.report.texts.insert((number, mcid), String::new()).is_some()
                        {
                            self.fault(format!("page {number}: number {mcid} twice"));
                        }
                        open.push(mcid);
                    }
                    "BMC" => {
                        if operands[0].as_name().expect("a tag") != b"Artifact" || !open.is_empty()
                        {
                            self.fault(format!("page {number}: a mark without properties"));
                        }
                        open.push(None);
                    }
                    "EMC" if open.pop().is_none() => self.fault("end without begin"),
                    "q" => depth += 1,
                    "Q" => depth -= 1,
                    "Tf" => font = operands[0].as_name().expect("a font").to_vec(),
                    "Tj" | "TJ" | "S" | "f" | "f*" | "B" | "B*" | "b" | "b*" | "s" | "Do"
                    | "sh" => {
                        if open.is_empty() {
                            self.fault(format!("page {number}: {} outside", operation.operator));
                        }
                        let said = shown(operands, maps.get(&font));
                        match said {
                            Err(code) => self.fault(format!("code {code:?} says nothing")),
                            Ok(said) => {
                                let mcid = open.iter().rev().find_map(|m| *m);
                                if let Some(mcid) = mcid {
                                    self.report
                                        .texts
                                        .entry((number, mcid))
                                        .or_default()
                                        .push_str(&said);
                                }
                            }
                        }
                    }
                    _ => {}
                }
                if depth > 28 {
                    self.fault("graphics states nested too deep");
                }
            }
            if !open.is_empty() || depth != 0 {
                self.fault(format!("page {number}: something left open"));
            }
            for font in fonts.values() {
                self.font(font);
            }
            if name(page, b"Tabs") != "S" {
                self.fault(format!("page {number}: Tabs is not S"));
            }
        }
    }

    /// Embedded, a subset, widths for every code; ISO 14289-1, 7.21.
    fn font(&mut self, font: &'a Dictionary) {
        let base = name(font, b"BaseFont");
        let subset = base.len() > 7
            && base.as_bytes()[..6].iter().all(u8::is_ascii_uppercase)
            && base.as_bytes()[6] == b'+';
        if !self.encoded(font) || !subset {
            self.fault(format!("{base}: not a subset whose codes number its characters"));
        }
        let Some(descendant) = self.list(font, b"DescendantFonts").first().copied() else {
            return self.fault(format!("{base}: no descendant"));
        };
        let descendant = self.resolve(descendant).as_dict().expect("a font");
        if name(descendant, b"BaseFont") != base || !descendant.has(b"CIDToGIDMap") {
            self.fault(format!("{base}: descendant"));
        }
        let descriptor = self.dictionary(descendant, b"FontDescriptor").expect("a descriptor");
        let program = self.entry(descriptor, b"FontFile2").expect("embedded");
        let program =
            program.as_stream().expect("a stream").decompressed_content().expect("packed");
        let face = rustybuzz::ttf_parser::Face::parse(&program, 0).expect("a TrueType program");
        let widths = self.list(descendant, b"W");
        let widths = widths[1].as_array().expect("one range");
        let glyphs: Vec<u16> = match self.entry(descendant, b"CIDToGIDMap") {
            Some(Object::Stream(map)) => {
                let data = map.get_plain_content().expect("packed");
                data.chunks(2).map(|p| u16::from_be_bytes([p[0], p[1]])).skip(1).collect()
            }
            _ => (1..=widths.len() as u16).collect(),
        };
        for (width, glyph) in widths.iter().zip(glyphs) {
            let glyph = rustybuzz::ttf_parser::GlyphId(glyph);
            let units = f32::from(face.glyph_hor_advance(glyph).expect("in the subset"));
            let true_width = units * 1000.0 / f32::from(face.units_per_em());
            if (width.as_float().expect("a number") - true_width).abs() > 0.01 {
                self.fault(format!("{base}: width of glyph {}", glyph.0));
            }
        }
    }

    /// By `Identity-H`, or by an embedded map that does the same for codes of one byte (ISO 19005-3,
    /// 6.2.11.3: embedded, of the same collection as the font, its writing mode told once).
    fn encoded(&self, font: &'a Dictionary) -> bool {
        if name(font, b"Encoding") == "Identity-H" {
            return true;
        }
        let Some(Object::Stream(map)) = self.entry(font, b"Encoding") else { return false };
        let text = String::from_utf8(map.get_plain_content().expect("packed")).expect("letters");
        let collection = self.dictionary(&map.dict, b"CIDSystemInfo");
        let ordering = collection.and_then(|c| c.get(b"Ordering").and_then(Object::as_str).ok());
        name(&map.dict, b"Type") == "CMap"
            && text.contains(&format!("/CMapName /{} def", name(&map.dict, b"CMapName")))
            && ordering == Some(b"Identity")
            && text.contains("begincodespacerange\n<00><FF>\n")
            && text.contains("begincidrange\n<00><FF> 0\n")
    }

    fn tree(&mut self) {
        let catalog = self.file.catalog().expect("a catalog");
        let Some(root) = self.dictionary(catalog, b"StructTreeRoot") else {
            return self.fault("no tag tree");
        };
        let Ok(kid) = root.get(b"K").and_then(Object::as_reference) else {
            return self.fault("no root element");
        };
        let parent = catalog.get(b"StructTreeRoot").and_then(Object::as_reference);
        self.element(kid, parent.expect("a reference"), "", 0);
        let untaken: Vec<_> =
            self.report.texts.keys().filter(|k| !self.taken.contains_key(k)).copied().collect();
        for (page, mcid) in untaken {
            self.fault(format!("page {page}: content {mcid} is in no element"));
        }
    }

    fn element(&mut self, id: ObjectId, parent: ObjectId, within: &str, depth: usize) {
        let Ok(element) = self.file.get_dictionary(id) else {
            return self.fault("an element is missing");
        };
        let kind = name(element, b"S");
        self.report.tags.push((depth, kind.clone()));
        if element.get(b"P").and_then(Object::as_reference).ok() != Some(parent) {
            self.fault(format!("{kind} does not name its parent"));
        }
        self.nesting(&kind, within);
        self.attributes(element, &kind);
        let kids: Vec<&Object> = match element.get(b"K") {
            Ok(Object::Array(items)) => items.iter().collect(),
            Ok(other) => vec![other],
            Err(_) => Vec::new(),
        };
        let mut kinds = Vec::new();
        for kid in kids {
            let here = element.get(b"Pg").and_then(Object::as_reference).ok();
            match kid {
                Object::Integer(mcid) => self.take(here, *mcid, id),
                Object::Reference(kid) => {
                    if let Ok(kid) = self.file.get_dictionary(*kid) {
                        kinds.push(name(kid, b"S"));
                    }
                    self.element(*kid, id, &kind, depth + 1);
                }
                Object::Dictionary(kid) if name(kid, b"Type") == "MCR" => {
                    let page = kid.get(b"Pg").and_then(Object::as_reference).ok().or(here);
                    let mcid = kid.get(b"MCID").and_then(Object::as_i64).expect("a number");
                    self.take(page, mcid, id);
                }
                Object::Dictionary(kid) => {
                    let annotation = kid.get(b"Obj").and_then(Object::as_reference).expect("OBJR");
                    self.annotations.insert(annotation, id);
                    kinds.push("OBJR".into());
                }
                _ => self.fault("a kid of no known kind"),
            }
        }
        match kind.as_str() {
            "Link" if !kinds.contains(&"OBJR".to_string()) => {
                self.fault("a link without annotation");
            }
            "LI" if kinds.iter().any(|k| k != "Lbl" && k != "LBody") => self.fault("a list item"),
            _ => {}
        }
    }

    fn take(&mut self, page: Option<ObjectId>, mcid: i64, element: ObjectId) {
        let Some(page) = self.pages.iter().position(|&p| Some(p) == page) else {
            return self.fault(format!("content {mcid} on no page"));
        };
        match self.report.texts.get(&(page, mcid)) {
            None => self.fault(format!("page {page}: no content {mcid}")),
            Some(text) => self.report.reading.push(text.clone()),
        }
        if self.taken.insert((page, mcid), element).is_some() {
            self.fault(format!("page {page}: content {mcid} in two elements"));
        }
    }

    fn nesting(&mut self, kind: &str, within: &str) {
        const PARENTS: [(&str, &[&str]); 10] = [
            ("Document", &[""]),
            ("LI", &["L"]),
            ("Lbl", &["LI", "TOCI"]),
            ("LBody", &["LI"]),
            ("THead", &["Table"]),
            ("TBody", &["Table"]),
            ("TR", &["Table", "THead", "TBody"]),
            ("TH", &["TR"]),
            ("TD", &["TR"]),
            ("TOCI", &["TOC"]),
        ];
        if let Some((_, parents)) = PARENTS.iter().find(|(k, _)| *k == kind)
            && !parents.contains(&within)
        {
            self.fault(format!("{kind} in {within}"));
        }
        if let Some(level) = kind.strip_prefix('H').and_then(|n| n.parse::<u32>().ok()) {
            if level > self.headings.last().copied().unwrap_or(0) + 1 {
                self.fault(format!("{kind} skips a level"));
            }
            self.headings.push(level);
        }
    }

    fn attributes(&mut self, element: &'a Dictionary, kind: &str) {
        let attributes = self.dictionary(element, b"A");
        match kind {
            "Figure" => {
                let alt = element.get(b"Alt").and_then(Object::as_str).unwrap_or_default();
                if alt.is_empty() {
                    self.fault("a figure without Alt");
                }
                let area = attributes.map(|a| self.list(a, b"BBox")).unwrap_or_default();
                let numbers: Vec<f32> = area.iter().filter_map(|n| n.as_float().ok()).collect();
                let ordered =
                    numbers.len() == 4 && numbers[0] < numbers[2] && numbers[1] < numbers[3];
                if !ordered || !element.has(b"Pg") {
                    self.fault("a figure without BBox");
                }
            }
            "TH" => {
                let scope = attributes.map(|a| name(a, b"Scope")).unwrap_or_default();
                if scope != "Column" && scope != "Row" {
                    self.fault("TH without Scope");
                }
            }
            _ => {}
        }
    }

    /// The parent tree leads from every content and every annotation back to its element.
    fn parents(&mut self) {
        let catalog = self.file.catalog().expect("a catalog");
        let Some(root) = self.dictionary(catalog, b"StructTreeRoot") else { return };
        let parents = self.dictionary(root, b"ParentTree").expect("a parent tree");
        let numbers = self.list(parents, b"Nums");
        let map: BTreeMap<i64, &Object> =
            numbers.chunks(2).map(|p| (p[0].as_i64().expect("a key"), p[1])).collect();
        if map.len() * 2 != numbers.len() || !map.keys().zip(0..).all(|(k, n)| *k == n) {
            self.fault("parent tree is not in order");
        }
        let next = root.get(b"ParentTreeNextKey").and_then(Object::as_i64).unwrap_or(-1);
        if map.keys().any(|&k| k >= next) {
            self.fault("ParentTreeNextKey");
        }
        let mut used = BTreeSet::new();
        for (number, &id) in self.pages.clone().iter().enumerate() {
            let page = self.file.get_dictionary(id).expect("a page");
            let key = page.get(b"StructParents").and_then(Object::as_i64).expect("a key");
            used.insert(key);
            let owners = self.resolve(map[&key]).as_array().expect("a list");
            let contents = self.report.texts.keys().filter(|k| k.0 == number).count();
            if owners.len() != contents {
                self.fault(format!(
                    "page {number}: {} owners of {contents} contents",
                    owners.len()
                ));
            }
            for (owner, mcid) in owners.iter().zip(0..) {
                if owner.as_reference().ok() != self.taken.get(&(number, mcid)).copied() {
                    self.fault(format!("page {number}: content {mcid} names another parent"));
                }
            }
            let annotations: Vec<ObjectId> = match page.get(b"Annots") {
                Ok(Object::Array(items)) => {
                    items.iter().map(|a| a.as_reference().expect("indirect")).collect()
                }
                _ => Vec::new(),
            };
            for id in annotations {
                let annotation = self.file.get_dictionary(id).expect("an annotation");
                let key = annotation.get(b"StructParent").and_then(Object::as_i64).unwrap_or(-1);
                used.insert(key);
                let owner = map.get(&key).and_then(|o| o.as_reference().ok());
                if owner.is_none() || owner != self.annotations.get(&id).copied() {
                    self.fault("an annotation outside the tag tree");
                }
                if annotation.get(b"F").and_then(Object::as_i64).ok() != Some(4) {
                    self.fault("an annotation that is not printed, or hidden");
                }
                let contents = annotation.get(b"Contents").and_then(Object::as_str);
                if contents.unwrap_or_default().is_empty() {
                    self.fault("a link without Contents");
                }
                let page = annotation.get(b"Dest").and_then(Object::as_array).expect("a place")[0]
                    .as_reference();
                if !page.is_ok_and(|p| self.pages.contains(&p)) {
                    self.fault("a link to no page");
                }
            }
        }
        if used.len() != map.len() {
            self.fault("keys of the parent tree that nothing uses");
        }
    }

    /// What both standards ask of the catalog.
    fn catalog(&mut self) {
        let catalog = self.file.catalog().expect("a catalog");
        let yes = |d: Option<&Dictionary>, key: &[u8]| {
            d.and_then(|d| d.get(key).ok()).and_then(|v| v.as_bool().ok()) == Some(true)
        };
        if !yes(self.dictionary(catalog, b"MarkInfo"), b"Marked") {
            self.fault("not marked as tagged");
        }
        let viewer = self.dictionary(catalog, b"ViewerPreferences");
        if !yes(viewer, b"DisplayDocTitle") {
            self.fault("title is not shown");
        }
        if viewer.is_none_or(|v| name(v, b"PrintScaling") != "None") {
            self.fault("printing may scale");
        }
        if catalog.get(b"Lang").and_then(Object::as_str).unwrap_or_default().is_empty() {
            self.fault("no language");
        }
        let metadata = self.entry(catalog, b"Metadata").and_then(|m| m.as_stream().ok());
        let xmp = metadata.and_then(|m| m.get_plain_content().ok()).unwrap_or_default();
        let xmp = String::from_utf8(xmp).unwrap_or_default();
        for part in [
            "<pdfaid:part>3</pdfaid:part>",
            "<pdfaid:conformance>B</pdfaid:conformance>",
            "<pdfuaid:part>1</pdfuaid:part>",
            "<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>",
            "<dc:title>",
        ] {
            if !xmp.contains(part) {
                self.fault(format!("metadata lack {part}"));
            }
        }
        let intents = self.list(catalog, b"OutputIntents");
        let intent = intents.first().and_then(|i| self.resolve(i).as_dict().ok());
        let profile = intent.and_then(|i| self.entry(i, b"DestOutputProfile"));
        let profile = profile.and_then(|p| p.as_stream().ok()?.get_plain_content().ok());
        if profile.is_none_or(|p| p.get(36..40) != Some(b"acsp")) {
            self.fault("no output intent");
        }
        for file in self.list(catalog, b"AF") {
            let file = self.resolve(file).as_dict().expect("a file");
            let keys = [b"F".as_slice(), b"UF", b"EF", b"AFRelationship"];
            if keys.iter().any(|key| !file.has(key)) {
                self.fault("an attached file without F, UF, EF or AFRelationship");
            }
        }
    }
}

/// The text of each code, by its bytes.
type Texts = BTreeMap<Vec<u8>, String>;

/// The characters of a font's codes.
fn to_unicode(file: &Document, font: &Dictionary) -> Texts {
    let stream = font.get(b"ToUnicode").and_then(|o| file.dereference(o)).expect("ToUnicode").1;
    let text = stream.as_stream().expect("a stream").get_plain_content().expect("packed");
    let text = String::from_utf8(text).expect("plain letters");
    let mut map = BTreeMap::new();
    let bytes = |digits: &str| -> Vec<u8> {
        let pairs = digits.as_bytes().chunks(2).filter_map(|pair| std::str::from_utf8(pair).ok());
        pairs.filter_map(|pair| u8::from_str_radix(pair, 16).ok()).collect()
    };
    let sections = text.split("beginbfchar").skip(1).filter_map(|s| s.split("endbfchar").next());
    for line in sections.flat_map(str::lines).filter(|line| line.starts_with('<')) {
        let mut parts = line.split(['<', '>']).filter(|p| !p.is_empty());
        let (Some(code), Some(units)) = (parts.next(), parts.next()) else { continue };
        let units: Vec<u16> =
            bytes(units).chunks(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect();
        map.insert(bytes(code), String::from_utf16_lossy(&units));
    }
    map
}

/// What a showing operator says; the code of the first that says nothing.
fn shown(operands: &[Object], map: Option<&Texts>) -> Result<String, Vec<u8>> {
    let mut said = String::new();
    let mut items: Vec<&Object> = operands.iter().collect();
    if let Some(Object::Array(inner)) = operands.first() {
        items = inner.iter().collect();
    }
    let length = map.and_then(|m| m.keys().next()).map_or(2, Vec::len);
    for item in items {
        let Object::String(codes, _) = item else { continue };
        for code in codes.chunks(length) {
            match map.and_then(|m| m.get(code)).map(String::as_str) {
                None | Some("" | "\0" | "\u{feff}" | "\u{fffe}") => return Err(code.to_vec()),
                Some(text) => said.push_str(text),
            }
        }
    }
    Ok(said)
}
