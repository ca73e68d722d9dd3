use super::*;
use crate::source::Rule;
use crate::terminal::{ToldFile, json, lines, tally};
use proptest::prelude::*;

static EDGE: Rule = Rule {
    code: "H012",
    name: "hole-too-near-edge",
    severity: Severity::Stop,
    checks: "",
    why: "",
    example: "",
    remedy: "",
    source_limits: "",
};
static DRY: Rule = Rule { code: "A003", name: "air-is-dry", severity: Severity::Note, ..EDGE };

fn sample() -> (Text, Vec<Finding>) {
    let contents = "[[hole]]\nname = \"äußere\"\nx = \"6 mm\"\n\n[[part]]\nlength = \"40 mm\"\n";
    let text = Text::new("van.toml", contents);
    let find = |words: &str| {
        let start = contents.find(words).expect("it is in the sample");
        Span::new(start, start + words.len())
    };
    let findings = vec![
        Finding::new(&DRY, "the air holds 5 g/kg of water"),
        Finding::new(&EDGE, "the hole is 6 mm from the edge; 8 mm is the least")
            .at(find("\"6 mm\""), "6 mm from the edge")
            .also(find("\"40 mm\""), "the part ends here")
            .means("the strip between hole and edge tears out")
            .help("move the hole inwards by 2 mm")
            .help("take a wider plate")
            .on("part sheet B2"),
    ];
    (text, findings)
}

#[test]
fn a_finding_points_at_its_line() {
    let (text, findings) = sample();
    let expected = "\
stop[H012]: the hole is 6 mm from the edge; 8 mm is the least
 --> van.toml:3:5
  |
3 | x = \"6 mm\"
  |     ^^^^^^ 6 mm from the edge
...
6 | length = \"40 mm\"
  |          ------- the part ends here
  |
  = it means: the strip between hole and edge tears out
  = help: move the hole inwards by 2 mm
  = help: take a wider plate
  = shown on: part sheet B2

note[A003]: the air holds 5 g/kg of water
--> van.toml

";
    assert_eq!(drawn(&text, &findings, Look::default()), expected);
}

#[test]
fn colour_adds_nothing_but_escapes() {
    let (text, findings) = sample();
    let colored = drawn(&text, &findings, Look { color: true, ..Look::default() });
    assert!(colored.contains('\u{1B}'));
    let mut bare = String::new();
    let mut rest = colored.as_str();
    while let Some((before, after)) = rest.split_once("\u{1B}[") {
        bare.push_str(before);
        rest = after.split_once('m').map_or("", |(_, rest)| rest);
    }
    bare.push_str(rest);
    assert_eq!(bare, drawn(&text, &findings, Look::default()));
}

#[test]
fn lines_are_for_editors() {
    let (text, findings) = sample();
    assert_eq!(
        lines(&text, &findings),
        "van.toml:3:5: stop: H012 the hole is 6 mm from the edge; 8 mm is the least\n\
         van.toml: note: A003 the air holds 5 g/kg of water\n"
    );
    assert_eq!(tally(&findings), "1 stop, 1 note");
    assert_eq!(tally(&[]), "nothing found");
}

fn file<'a>(text: &'a Text, findings: &'a [Finding]) -> ToldFile<'a> {
    ToldFile {
        name: text.name(),
        texts: vec![(text, findings)],
        stopped: true,
        summary: Vec::new(),
    }
}

#[test]
fn json_tells_all_of_it() {
    let (text, findings) = sample();
    let told: serde_json::Value =
        serde_json::from_str(&json(&[file(&text, &findings)]).expect("text keys only"))
            .expect("it is JSON");
    assert_eq!((&told["format"], &told["files"][0]["stops"]), (&1.into(), &1.into()));
    let told = &told["files"][0]["findings"];
    assert_eq!(told[0]["code"], "H012");
    assert_eq!(told[0]["severity"], "stop");
    assert_eq!(told[0]["at"]["line"], 3);
    assert_eq!(told[0]["at"]["end_column"], 11);
    assert_eq!(told[0]["also"][0]["label"], "the part ends here");
    assert_eq!(told[0]["helps"][1], "take a wider plate");
    assert!(told[1].get("at").is_none());
}

#[test]
fn without_graphics_it_can_be_read_aloud() {
    let (text, findings) = sample();
    let spoken = drawn(&text, &findings, Look { graphics: false, ..Look::default() });
    assert!(!spoken.contains('^') && !spoken.contains("-->"), "{spoken}");
    assert!(spoken.contains("6 mm from the edge") && spoken.contains("take a wider plate"));
}

proptest! {
    #[test]
    fn no_span_and_no_name_breaks_the_drawing(
        contents in "[a-cä°\"\n\t\u{1B}]{0,40}",
        words in "\\PC{0,30}",
        spans in proptest::collection::vec((0_usize..60, 0_usize..60), 1..4),
        width in 0_usize..120,
    ) {
        let text = Text::new("t", contents);
        let mut finding = Finding::new(&EDGE, words.clone()).help(words.clone());
        for (i, (a, b)) in spans.iter().enumerate() {
            let span = Span::new(*a, *b);
            finding = if i == 0 { finding.at(span, words.clone()) } else { finding.also(span, words.clone()) };
        }
        let findings = [finding];
        let look = Look { width, ..Look::default() };
        let text_out = drawn(&text, &findings, look);
        let escapes = text_out.contains('\u{1B}');
        prop_assert!(text_out.contains("H012") && !escapes);
        prop_assert_eq!(lines(&text, &findings).lines().count(), 1);
        drawn(&text, &findings, Look { graphics: false, ..look });
        prop_assert!(json(&[file(&text, &findings)]).is_ok());
    }
}
