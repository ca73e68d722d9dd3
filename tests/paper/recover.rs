//! The build file taken out again, from sound packets, from packets that other tools have rewritten,
//! and from bytes made to do harm.

use super::sample;
use lopdf::{Dictionary, Document, Object, Stream, dictionary};
use proptest::prelude::*;
use rungsheet::paper::{Fault, pdf, recover};
use std::sync::LazyLock;
use std::time::{Duration, Instant};

static PACKET: LazyLock<Vec<u8>> =
    LazyLock::new(|| pdf(&sample::document()).expect("the sample is sound"));

#[test]
fn the_build_file_comes_back_byte_for_byte() {
    let found = recover(&PACKET).expect("a file is attached");
    assert_eq!(found.name, "sample.toml");
    assert_eq!(found.bytes, sample::BUILD.as_bytes());
}

#[test]
fn any_bytes_come_back() {
    for bytes in [Vec::new(), vec![0], (0..=255u8).cycle().take(100_000).collect::<Vec<u8>>()] {
        let mut document = sample::document();
        let attachment = document.attachment.as_mut().expect("the sample has one");
        attachment.name = "Dach \u{2013} neu (2).toml".into();
        attachment.bytes = bytes.clone().into();
        let found = recover(&pdf(&document).expect("sound")).expect("attached");
        assert_eq!(found.bytes, bytes);
        assert_eq!(found.name, "Dach \u{2013} neu (2).toml");
    }
}

#[test]
fn a_packet_rewritten_with_a_classic_table_still_gives_it() {
    let mut file = Document::load_mem(&PACKET).expect("lopdf reads it");
    file.reference_table.cross_reference_type = lopdf::xref::XrefType::CrossReferenceTable;
    let mut bytes = Vec::new();
    file.save_to(&mut bytes).expect("writing to memory");
    assert!(bytes.windows(8).any(|w| w == b"\ntrailer"));
    assert_eq!(recover(&bytes).expect("attached").bytes, sample::BUILD.as_bytes());
}

#[test]
fn a_packet_with_a_revision_appended_still_gives_it() {
    let before = Document::load_mem(&PACKET).expect("lopdf reads it");
    let mut file = lopdf::IncrementalDocument::create_from(PACKET.clone(), before);
    file.new_document.add_object(dictionary! { "Note" => 1 });
    let mut bytes = Vec::new();
    file.save_to(&mut bytes).expect("writing to memory");
    assert!(bytes.len() > PACKET.len());
    assert_eq!(recover(&bytes).expect("attached").bytes, sample::BUILD.as_bytes());
}

#[test]
fn bytes_before_the_header_are_passed_over() {
    let bytes = [b"mail\r\n\r\n".as_slice(), &PACKET].concat();
    assert_eq!(recover(&bytes).expect("attached").bytes, sample::BUILD.as_bytes());
}

#[test]
fn a_packet_without_attachment_says_so() {
    let mut document = sample::document();
    document.attachment = None;
    let bytes = pdf(&document).expect("sound");
    assert_eq!(recover(&bytes), Err(Fault::NoAttachment));
}

#[test]
fn what_is_no_pdf_says_so() {
    for bytes in [b"".as_slice(), b"%PDF", b"%PDF-1.7\n", b"format = 1\n", &[0xFF; 5000]] {
        assert!(matches!(recover(bytes), Err(Fault::NotPdf(_))));
    }
}

#[test]
fn a_protected_file_says_so() {
    let mut file = Document::load_mem(&PACKET).expect("lopdf reads it");
    file.trailer.set("Encrypt", dictionary! { "Filter" => "Standard" });
    let mut bytes = Vec::new();
    file.save_to(&mut bytes).expect("writing to memory");
    assert_eq!(recover(&bytes), Err(Fault::Encrypted));
}

#[test]
fn a_changed_byte_in_the_attached_file_is_seen() {
    let mut document = sample::document();
    let attachment = document.attachment.as_mut().expect("the sample has one");
    // Digits without a pattern pack as literals, so a bit turned over still unpacks, to other text.
    let next = |n: &u32| Some(n.wrapping_mul(1_664_525).wrapping_add(1_013_904_223));
    let digits: Vec<u8> = std::iter::successors(Some(1u32), next)
        .map(|n| b'0' + (n >> 24) as u8 % 10)
        .take(4000)
        .collect();
    attachment.bytes = digits.into();
    let bytes = pdf(&document).expect("sound");
    let head = b"/EmbeddedFile";
    let at = bytes.windows(head.len()).position(|w| w == head).expect("a stream");
    let start = at + bytes[at..].windows(7).position(|w| w == b"stream\n").expect("its data") + 7;
    let mut noticed = 0;
    for step in 0..40 {
        let mut broken = bytes.clone();
        broken[start + 300 + 20 * step] ^= 0x10;
        match recover(&broken) {
            Err(Fault::NotPdf(_)) => noticed += 1,
            _ => panic!("byte {step} was changed unseen"),
        }
    }
    assert_eq!(noticed, 40);
}

/// A file of these objects, catalog first, with a classic table.
fn file_of(objects: Vec<Object>) -> Vec<u8> {
    let mut file = Document::with_version("1.7");
    file.reference_table.cross_reference_type = lopdf::xref::XrefType::CrossReferenceTable;
    for object in objects {
        file.add_object(object);
    }
    file.trailer.set("Root", Object::Reference((1, 0)));
    let mut bytes = Vec::new();
    file.save_to(&mut bytes).expect("writing to memory");
    bytes
}

fn quickly(bytes: &[u8]) -> Result<rungsheet::paper::Recovered, Fault> {
    let start = Instant::now();
    let result = recover(bytes);
    assert!(start.elapsed() < Duration::from_secs(3), "{:?}", start.elapsed());
    result
}

#[test]
fn a_small_stream_that_unpacks_to_gigabytes_is_refused() {
    // 64 MB of zeroes, packed twice over by hand would hide it; once is what the format has.
    let mut bomb = Stream::new(dictionary! { "Type" => "EmbeddedFile" }, vec![0; 64 << 20]);
    bomb.compress().expect("packs");
    let bytes = file_of(vec![
        dictionary! {
            "Type" => "Catalog",
            "AF" => vec![dictionary! {
                "Type" => "Filespec",
                "EF" => dictionary! { "F" => Object::Reference((2, 0)) },
            }.into()],
        }
        .into(),
        bomb.into(),
    ]);
    assert!(bytes.len() < 1 << 20);
    assert!(quickly(&bytes).is_err());
}

#[test]
fn references_in_a_circle_end() {
    let link = |n: u32| Object::Reference((n, 0));
    let bytes = file_of(vec![
        dictionary! { "Type" => "Catalog", "AF" => link(2), "Names" => link(3) }.into(),
        link(2),
        dictionary! { "EmbeddedFiles" => link(4) }.into(),
        dictionary! { "Kids" => vec![link(4), link(4), link(3)], "Names" => link(2) }.into(),
    ]);
    assert_eq!(quickly(&bytes), Err(Fault::NoAttachment));
}

#[test]
fn deep_nesting_ends() {
    let mut bytes = b"%PDF-1.7\n1 0 obj\n<</AF ".to_vec();
    bytes.extend(std::iter::repeat_n(b'[', 2_000_000));
    bytes.extend(b"\nendobj\nxref\n0 2\n0000000000 65535 f \n0000000009 00000 n \ntrailer<</Root 1 0 R>>\nstartxref\n");
    let at = bytes.windows(5).position(|w| w == b"xref\n").expect("just written");
    bytes.extend(at.to_string().bytes());
    assert!(quickly(&bytes).is_err());
}

/// A file whose cross-reference stream has these widths and this index over few bytes.
fn cross_reference(widths: &str, index: &str, extra: &str) -> Vec<u8> {
    let mut bytes = b"%PDF-1.7\n".to_vec();
    let at = bytes.len();
    let head = format!(
        "1 0 obj\n<</Type/XRef/Size 9/W {widths}/Index {index}/Root 1 0 R{extra}/Length 4>>stream\n"
    );
    bytes.extend(head.bytes());
    bytes.extend(b"\x01\x00\x09\x00\nendstream\nendobj\nstartxref\n");
    bytes.extend(at.to_string().bytes());
    bytes.extend(b"\n%%EOF");
    bytes
}

#[test]
fn tables_that_lie_about_their_size_take_no_memory() {
    for (widths, index, extra) in [
        ("[0 0 0]", "[0 4294967295]", ""),
        ("[1 9223372036854775807 2]", "[0 1]", ""),
        ("[1 2 1]", "[0 9223372036854775807]", ""),
        ("[1 2 1]", "[9223372036854775807 1]", ""),
        ("[1 -2 1]", "[0 1]", ""),
        ("[1 2 1]", "[0 1]", "/Prev 9"),
        ("[1 2 1]", "[0 1]", "/Prev 99999999999999999999"),
        (
            "[1 2 1]",
            "[0 1]",
            "/DecodeParms<</Predictor 12/Columns 4611686018427387904>>/Filter/FlateDecode",
        ),
        ("[1 2 1]", "[0 1]", "/XRefStm 9/Prev 9"),
    ] {
        assert!(quickly(&cross_reference(widths, index, extra)).is_err());
    }
}

#[test]
fn objects_by_the_million_in_one_array_end() {
    let mut bytes = b"%PDF-1.7\n1 0 obj\n<</AF[".to_vec();
    bytes.extend(std::iter::repeat_n(*b"1 ", 4_000_000).flatten());
    bytes.extend(b"]>>\nendobj\n");
    let at = bytes.len();
    bytes.extend(
        b"xref\n0 2\n0000000000 65535 f \n0000000009 00000 n \ntrailer<</Root 1 0 R>>\nstartxref\n",
    );
    bytes.extend(at.to_string().bytes());
    assert!(quickly(&bytes).is_err());
}

/// A packet without the bulk of fonts and pages, so that changes hit what matters here.
static SMALL: LazyLock<[Vec<u8>; 2]> = LazyLock::new(|| {
    let file = Document::load_mem(&PACKET).expect("lopdf reads it");
    let catalog = file.catalog().expect("there is one");
    let mut small = Document::with_version("1.7");
    let mut root = Dictionary::new();
    for key in [b"AF".as_slice(), b"Names"] {
        root.set(key, catalog.get(key).expect("the sample has both").clone());
    }
    for (id, object) in &file.objects {
        let kind = object.type_name().unwrap_or_default();
        if kind == b"Filespec" || kind == b"EmbeddedFile" {
            small.objects.insert(*id, object.clone());
            small.max_id = small.max_id.max(id.0);
        }
    }
    let root = small.add_object(root);
    small.trailer.set("Root", root);
    let (mut modern, mut classic) = (Vec::new(), Vec::new());
    small.clone().save_modern(&mut modern).expect("writing to memory");
    small.reference_table.cross_reference_type = lopdf::xref::XrefType::CrossReferenceTable;
    small.save_to(&mut classic).expect("writing to memory");
    [modern, classic]
});

#[test]
fn the_small_packets_are_sound() {
    for bytes in SMALL.iter() {
        assert_eq!(recover(bytes).expect("attached").bytes, sample::BUILD.as_bytes());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    /// Whatever happens to a packet's bytes, the answer is the build file as it was or a refusal; a
    /// change that leaves content and checksum in place may go unseen in the name.
    #[test]
    fn changed_packets_give_the_file_or_a_refusal(
        which in 0..2usize,
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..8),
        cut in prop::option::of(any::<prop::sample::Index>()),
        twice in any::<bool>(),
    ) {
        let mut bytes = SMALL[which].clone();
        for (at, value) in changes {
            let at = at.index(bytes.len());
            bytes[at] = value;
        }
        if let Some(cut) = cut {
            bytes.truncate(cut.index(bytes.len()));
        }
        if twice {
            bytes.extend_from_within(..);
        }
        let start = Instant::now();
        if let Ok(found) = recover(&bytes) {
            prop_assert_eq!(found.bytes, sample::BUILD.as_bytes());
        }
        prop_assert!(start.elapsed() < Duration::from_secs(1));
    }

    /// Numbers and words of the syntax put anywhere.
    #[test]
    fn foreign_words_are_survived(
        which in 0..2usize,
        at in any::<prop::sample::Index>(),
        word in prop::sample::select(vec![
            "<<", ">>", "[", "]", "(", ")", "<", ">", "/", "%", "#", "\\", "R", "1 0 R", "obj",
            "stream", "endstream", "xref", "trailer", "startxref", "-1", "99999999999999999999",
            "9223372036854775807", "4294967295", "/Length", "/Prev 0", "/W[1 1 1]", "/Index[0 0]",
        ]),
        over in any::<bool>(),
    ) {
        let mut bytes = SMALL[which].clone();
        let at = at.index(bytes.len());
        let end = if over { (at + word.len()).min(bytes.len()) } else { at };
        bytes.splice(at..end, word.bytes());
        let start = Instant::now();
        let _ = recover(&bytes);
        prop_assert!(start.elapsed() < Duration::from_secs(1));
    }

    /// Bytes that were never a PDF, behind a header.
    #[test]
    fn noise_is_refused(noise in prop::collection::vec(any::<u8>(), 0..2000)) {
        let bytes = [b"%PDF-1.7\n".as_slice(), &noise].concat();
        prop_assert!(recover(&bytes).is_err());
    }
}
