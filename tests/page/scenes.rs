//! Drawings: scale, exactness, dimensions and labels.

use rungsheet::page::block::{Block, Figure};
use rungsheet::page::model::{Document, Item, Pen, Point, Segment};
use rungsheet::page::scene::{Fill, Line, Place, Scale, Scene, Side, Style};
use rungsheet::page::{Packet, Problem, ProblemKind, Sheet, lay_out};

use super::{paths, runs, sample, words, wrongs};

fn draw(scene: Scene, height: f64) -> (Document, Vec<Problem>) {
    let sheet = Sheet {
        anchor: "one".into(),
        title: "One drawing".into(),
        purpose: String::new(),
        tab: None,
        steps: None,
        blocks: vec![Block::Figure(Figure::new(scene, height))],
        single_sided: false,
    };
    let (document, problems) = lay_out(&Packet { sheets: vec![sheet], ..sample::packet() });
    assert_eq!(wrongs(&document), Vec::<String>::new());
    (document, problems)
}

fn ends(document: &Document, pen: Pen) -> Vec<(Point, Point)> {
    paths(&document.pages[0])
        .into_iter()
        .filter(|p| p.stroke.as_ref().is_some_and(|s| s.pen == pen))
        .filter_map(|p| match p.segments[..] {
            [Segment::Move(a), Segment::Line(b)] => Some((a, b)),
            _ => None,
        })
        .collect()
}

#[test]
fn a_template_is_exact_at_full_size() {
    // Page rule 46: check bars within 0.05 mm; here to rounding of f64.
    let mut scene = Scene::at_scale("check bars", Scale::FULL);
    scene.line(&[(3.0, 5.0), (3.0, 205.0)], Line::HEAVY);
    scene.line(&[(3.0, 5.0), (153.0, 5.0)], Line::HEAVY);
    let (document, _) = draw(scene, 230.0);
    let lines = ends(&document, Pen::W070);
    let lengths: Vec<f64> = lines.iter().map(|(a, b)| (a.x - b.x).hypot(a.y - b.y)).collect();
    assert!((lengths[0] - 200.0).abs() < 1e-9 && (lengths[1] - 150.0).abs() < 1e-9, "{lengths:?}");
    let (up, right) = (lines[0], lines[1]);
    assert!((up.0.x - up.1.x).abs() < 1e-9 && (right.0.y - right.1.y).abs() < 1e-9);
}

#[test]
fn the_scale_is_the_largest_of_the_list_that_fits() {
    // ISO 5455: 3200 mm of roof on 171 mm of sheet go at 1:20, not at 1:10.
    for (long, factor, said) in [(3200.0, 0.05, "1:20"), (1600.0, 0.1, "1:10"), (80.0, 2.0, "2:1")]
    {
        let mut scene = Scene::new("bar");
        scene.line(&[(0.0, 0.0), (long, 0.0)], Line::HEAVY);
        scene.view("from the side");
        let (document, problems) = draw(scene, 60.0);
        let (a, b) = ends(&document, Pen::W070)[0];
        assert!(((b.x - a.x) - long * factor).abs() < 1e-9);
        assert!(words(&document.pages[0]).contains(said));
        assert_eq!(problems, []);
    }
}

#[test]
fn a_drawing_not_to_scale_says_so() {
    let mut scene = Scene::not_to_scale("parts");
    scene.rectangle((0.0, 0.0), (37.0, 13.0), Line::HEAVY);
    scene.view("from the off side");
    let (document, _) = draw(scene, 60.0);
    assert!(words(&document.pages[0]).contains("not to scale"));
}

#[test]
fn dimensions_in_a_crowd_do_not_overlap() {
    // Twelve holes 4 mm apart on paper, each with a running value, and nested linear dimensions.
    let mut scene = Scene::at_scale("strip", Scale::FULL);
    scene.rectangle((0.0, 0.0), (120.0, 20.0), Line::VISIBLE);
    let places: Vec<((f64, f64), String)> =
        (1..=12).map(|i| ((f64::from(i) * 4.0, 10.0), format!("{}.5", i * 4))).collect();
    scene.running(Side::Above, (0.0, 20.0), &places);
    scene.running(Side::Left, (0.0, 0.0), &[((0.0, 3.0), "3".into()), ((0.0, 5.0), "5".into())]);
    for i in 1..=4 {
        let x = f64::from(i) * 25.0;
        scene.dimension(Side::Below, (0.0, 0.0), (x, 0.0), format!("{x}"));
    }
    scene.dimension(Side::Below, (100.0, 0.0), (103.0, 0.0), "3");
    scene.dimension(Side::Right, (120.0, 0.0), (120.0, 20.0), "20");
    scene.diameter((60.0, 10.0), 6.0, 30.0, "⌀6");
    let (document, problems) = draw(scene, 150.0);
    assert_eq!(problems, []);
    let said = words(&document.pages[0]);
    for (_, value) in &places {
        assert!(said.contains(value.as_str()), "{value}");
    }
}

#[test]
fn labels_keep_off_each_other_and_off_the_marks() {
    let mut scene = Scene::at_scale("plate", Scale::FULL);
    scene.rectangle((0.0, 0.0), (150.0, 90.0), Line::VISIBLE);
    for i in 0..6 {
        for j in 0..4 {
            let at = (15.0 + 24.0 * f64::from(i), 12.0 + 22.0 * f64::from(j));
            scene.hole(at, 5.5, format!("H{}", 10 + i * 4 + j));
        }
    }
    let (document, problems) = draw(scene, 150.0);
    assert_eq!(problems, []);
    assert_eq!(words(&document.pages[0]).matches("|H").count(), 24);
}

#[test]
fn a_heavy_line_through_words_is_seen() {
    // Two bars 3 mm apart, words of more than that between them.
    let mut scene = Scene::at_scale("two bars", Scale::FULL);
    scene.rectangle((0.0, 0.0), (90.0, 10.0), Line::HEAVY);
    scene.rectangle((0.0, -13.0), (90.0, 10.0), Line::HEAVY);
    scene.words((45.0, 0.0), "too large here", Place::Beside(Side::Below), Style::PLAIN);
    let (document, _) = draw(scene, 60.0);
    assert_eq!(super::examples::struck(&document.pages[0]), ["too large here"]);
}

#[test]
fn a_hole_has_an_open_middle() {
    let mut scene = Scene::at_scale("hole", Scale::FULL);
    scene.hole_mark((0.0, 0.0), 5.5);
    let (document, _) = draw(scene, 60.0);
    let arms = ends(&document, Pen::W025);
    let centre = arms.iter().fold((0.0, 0.0), |s, (a, _)| (s.0 + a.x / 4.0, s.1 + a.y / 4.0));
    assert_eq!(arms.len(), 4);
    for (a, b) in arms {
        let (near, far) =
            ((a.x - centre.0).hypot(a.y - centre.1), (b.x - centre.0).hypot(b.y - centre.1));
        // 1 mm free for the punch; arms reach beyond the finished hole.
        assert!(near >= 0.5 - 1e-9 && far > 5.5 / 2.0);
    }
}

#[test]
fn only_what_is_in_the_window_is_drawn() {
    let mut scene = Scene::at_scale("tile", Scale::FULL);
    scene.rectangle((0.0, 0.0), (400.0, 300.0), Line::VISIBLE);
    scene.hole((50.0, 50.0), 6.0, "H1");
    scene.hole((350.0, 50.0), 6.0, "H2");
    scene.window((0.0, 0.0), (160.0, 200.0));
    let (document, problems) = draw(scene, 230.0);
    assert_eq!(problems, []);
    let said = words(&document.pages[0]);
    assert!(said.contains("H1") && !said.contains("H2"));
    let clipped =
        document.pages[0].content.iter().flat_map(|s| &s.items).any(
            |i| matches!(i, Item::Clipped { window, .. } if (window.width - 160.0).abs() < 1e-9),
        );
    assert!(clipped);
}

#[test]
fn a_label_without_room_is_left_out_and_told() {
    let mut scene = Scene::at_scale("full", Scale::FULL);
    for i in 0..40 {
        for j in 0..40 {
            scene.filled_rectangle(
                (f64::from(i) * 4.0, f64::from(j) * 4.0),
                (3.9, 3.9),
                Fill::Black,
                None,
            );
        }
    }
    scene.label((80.0, 80.0), "in the middle of it all");
    let (document, problems) = draw(scene, 170.0);
    assert!(problems.iter().any(|p| p.kind == ProblemKind::NoRoomForLabel));
    assert!(!words(&document.pages[0]).contains("in the middle"));
}

#[test]
fn words_asked_onto_other_words_move_aside() {
    let mut scene = Scene::at_scale("two", Scale::FULL);
    scene.rectangle((0.0, 0.0), (100.0, 60.0), Line::THIN);
    scene.words((50.0, 30.0), "first", Place::Centre, Style::PLAIN);
    scene.words((50.0, 30.0), "second", Place::Centre, Style::PLAIN);
    let (document, _) = draw(scene, 100.0);
    let said = words(&document.pages[0]);
    assert!(said.contains("first") && said.contains("second"));
}

#[test]
fn all_lettering_of_a_drawing_has_one_height() {
    // Page rule 37; only the words of the view are 11 pt.
    let (document, _) = draw(sample_plate(), 100.0);
    for (run, artifact) in runs(&document.pages[0]) {
        let view = run.text.contains("above") || run.text.contains("scale") || run.size == 18.0;
        assert!(artifact || view || run.size == 14.0, "{:?} at {}", run.text, run.size);
    }
}

fn sample_plate() -> Scene {
    let mut plate = Scene::new("plate");
    plate.rectangle((0.0, 0.0), (180.0, 90.0), Line::VISIBLE);
    plate.hole((30.0, 62.0), 5.5, "H21");
    plate.dimension(Side::Below, (0.0, 0.0), (180.0, 0.0), "180");
    plate.datum((0.0, 0.0), "zero");
    plate.view("from above");
    plate
}

#[test]
fn words_too_long_for_the_room_do_not_cost_the_drawing() {
    let mut scene = Scene::new("plate");
    scene.rectangle((0.0, 0.0), (100.0, 50.0), Line::HEAVY);
    scene.leader((50.0, 25.0), "longer than any drawing on a sheet is wide, ".repeat(3));
    let (document, problems) = draw(scene, 80.0);
    assert!(problems.iter().all(|p| p.kind == ProblemKind::NoRoomForLabel));
    assert!(!problems.is_empty());
    let heavy = paths(&document.pages[0])
        .into_iter()
        .filter(|p| p.stroke.as_ref().is_some_and(|s| s.pen == Pen::W070))
        .count();
    assert_eq!(heavy, 1);
}
