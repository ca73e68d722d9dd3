//! Sketches that show where the tape goes; sizes carry the keys of the build file.

use crate::page::scene::{At, Fill, Lettering, Line, Place, Scene, Side, Style};

fn sketch(alt: &str) -> Scene {
    let mut scene = Scene::not_to_scale(alt);
    scene.lettering = Lettering::Large;
    scene
}

/// The vehicle from the left with its height.
pub(super) fn height() -> Scene {
    let mut scene = sketch("vehicle from the side; height from the ground to the highest point");
    scene.line(&[(-200.0, 0.0), (2500.0, 0.0)], Line::THIN);
    let body: [At; 8] = [
        (0.0, 170.0),
        (0.0, 560.0),
        (330.0, 640.0),
        (560.0, 1010.0),
        (1180.0, 1050.0),
        (2130.0, 1000.0),
        (2200.0, 170.0),
        (0.0, 170.0),
    ];
    scene.line(&body, Line::VISIBLE);
    scene.filled_rectangle((1420.0, 1040.0), (160.0, 55.0), Fill::HATCH, Some(Line::THIN));
    for x in [430.0, 1750.0] {
        scene.disc((x, 150.0), 150.0, Fill::White, Some(Line::VISIBLE));
    }
    scene.dimension(Side::Right, (2200.0, 0.0), (1580.0, 1095.0), "height");
    scene.leader((900.0, 1030.0), "roof-skin");
    scene.view_without_bar("from the left side, front at left");
    scene
}

fn plan(scene: &mut Scene) {
    scene.rounded((0.0, -400.0), (1600.0, 800.0), 90.0, Line::VISIBLE);
    scene.line(&[(-60.0, 0.0), (1660.0, 0.0)], Line::CENTRE);
    scene.datum((0.0, 0.0), "datum");
    scene.front((-90.0, 260.0), 180.0);
}

/// The roof with datum, length and width.
pub(super) fn roof() -> Scene {
    let mut scene = sketch("roof from above with datum, length and width, X to the rear, Y right");
    plan(&mut scene);
    scene.dimension(Side::Below, (0.0, -400.0), (1600.0, -400.0), "length");
    scene.dimension(Side::Right, (1600.0, -400.0), (1600.0, 400.0), "width");
    scene.arrow((60.0, 0.0), (420.0, 0.0));
    scene.label((430.0, 30.0), "X, to the rear");
    scene.arrow((200.0, 30.0), (200.0, 250.0));
    scene.label((210.0, 260.0), "Y, to the right");
    scene.view_without_bar("from above, front at left, right side up");
    scene
}

/// A straightedge across the crown with gaps.
pub(super) fn across() -> Scene {
    let mut scene =
        sketch("straightedge across the roof, level on the crown, gaps down to the skin");
    let skin = |y: f64| -150.0 * (y / 700.0) * (y / 700.0);
    let points: Vec<At> =
        (-40..=40).map(|step| f64::from(step) * 20.0).map(|y| (y, skin(y))).collect();
    scene.line(&points, Line::HEAVY);
    scene.filled_rectangle((-820.0, 0.0), (1640.0, 45.0), Fill::White, Some(Line::VISIBLE));
    scene.words((0.0, 22.0), "straightedge", Place::Centre, Style::PLAIN);
    for y in [-700.0, -350.0, 350.0, 700.0] {
        scene.line(&[(y, 0.0), (y, skin(y))], Line::THIN);
        scene.dot((y, skin(y)));
    }
    scene.dimension(Side::Right, (820.0, 0.0), (700.0, skin(700.0)), "gap");
    let places = [(-700.0, "−y"), (-350.0, "−y"), (350.0, "y"), (700.0, "y")];
    let places: Vec<(At, String)> =
        places.iter().map(|(y, word)| ((*y, 45.0), (*word).to_owned())).collect();
    scene.running(Side::Above, (0.0, 45.0), &places);
    scene.label_on((-700.0, skin(-700.0) - 10.0), Side::Below, "left");
    scene.label_on((0.0, -20.0), Side::Below, "skin");
    scene.view_without_bar("cut across, seen from the rear");
    scene
}

/// A straightedge along the centre line.
pub(super) fn along() -> Scene {
    let mut scene = sketch("straightedge along the centre line with gaps down to the skin");
    let skin = |x: f64| -90.0 * ((x - 800.0) / 800.0) * ((x - 800.0) / 800.0);
    let points: Vec<At> =
        (0..=80).map(|step| f64::from(step) * 20.0).map(|x| (x, skin(x))).collect();
    scene.line(&points, Line::HEAVY);
    scene.filled_rectangle((20.0, 0.0), (1560.0, 40.0), Fill::White, Some(Line::VISIBLE));
    scene.words((800.0, 20.0), "straightedge or taut line", Place::Centre, Style::PLAIN);
    let stations = [120.0, 460.0, 1140.0, 1480.0];
    for x in stations {
        scene.line(&[(x, 0.0), (x, skin(x))], Line::THIN);
        scene.dot((x, skin(x)));
    }
    let places: Vec<(At, String)> = stations.iter().map(|x| ((*x, 40.0), "x".to_owned())).collect();
    scene.running(Side::Above, (0.0, 40.0), &places);
    scene.dimension(Side::Right, (1580.0, 0.0), (1480.0, skin(1480.0)), "gap");
    scene.datum((0.0, skin(0.0)), "datum");
    scene.view_without_bar("from the left side, front at left");
    scene
}

/// A thing on the roof with its place and size.
pub(super) fn in_the_way() -> Scene {
    let mut scene = sketch("roof from above with a vent; x and y to its front left corner");
    plan(&mut scene);
    let (corner, size) = ((900.0, -140.0), (260.0, 380.0));
    scene.filled_rectangle(corner, size, Fill::HATCH, Some(Line::HEAVY));
    scene.dimension(Side::Below, (0.0, -400.0), (900.0, -140.0), "x");
    scene.dimension(Side::Below, (900.0, -140.0), (1160.0, -140.0), "length");
    scene.dimension(Side::Right, (1600.0, 0.0), (1160.0, -140.0), "y");
    scene.aligned((860.0, -140.0), (860.0, 240.0), 0.0, "width");
    scene.dot((900.0, -140.0));
    scene.view_without_bar("from above, front at left; the dot is the corner of x and y");
    scene
}

/// A panel from behind and its frame cut through.
pub(super) fn panel() -> Scene {
    let mut scene = sketch("panel from behind with length and width; its frame cut across");
    scene.rectangle((0.0, 0.0), (1000.0, 520.0), Line::HEAVY);
    scene.rectangle((45.0, 45.0), (910.0, 430.0), Line::THIN);
    scene.rectangle((430.0, 330.0), (140.0, 90.0), Line::VISIBLE);
    scene.label((500.0, 320.0), "box of the leads");
    scene.dimension(Side::Below, (0.0, 0.0), (1000.0, 0.0), "length");
    scene.dimension(Side::Left, (0.0, 0.0), (0.0, 520.0), "width");
    // The frame's own section beside it, much larger.
    let x = 1250.0;
    let section: [At; 9] = [
        (x, 480.0),
        (x, 60.0),
        (x + 330.0, 60.0),
        (x + 330.0, 90.0),
        (x + 34.0, 90.0),
        (x + 34.0, 400.0),
        (x + 330.0, 400.0),
        (x + 330.0, 480.0),
        (x, 480.0),
    ];
    scene.outline(&section[..8], Line::VISIBLE);
    scene.filled_rectangle((x + 34.0, 410.0), (440.0, 50.0), Fill::HATCH, Some(Line::THIN));
    scene.dimension(Side::Right, (x + 474.0, 60.0), (x + 474.0, 480.0), "thickness");
    scene.dimension(Side::Below, (x, 60.0), (x + 330.0, 60.0), "flange width");
    scene.aligned((x + 230.0, 60.0), (x + 230.0, 410.0), 0.0, "recess");
    scene.view_without_bar("left: from behind; right: its frame cut across, flange below");
    scene
}

/// A rail on the skin, cut across.
pub(super) fn rail() -> Scene {
    let mut scene = sketch("rail on the roof cut across: y, height and width of its flat top");
    let points: Vec<At> =
        (-35..=10).map(|step| f64::from(step) * 20.0).map(|y| (y, -0.0004 * y * y)).collect();
    scene.line(&points, Line::VISIBLE);
    let top = 60.0;
    scene.filled_rectangle((-560.0, top - 24.0), (120.0, 24.0), Fill::HATCH, Some(Line::HEAVY));
    scene.filled_rectangle(
        (-530.0, -112.0),
        (60.0, top - 24.0 + 112.0),
        Fill::HATCH,
        Some(Line::VISIBLE),
    );
    scene.line(&[(0.0, -60.0), (0.0, 150.0)], Line::CENTRE);
    scene.label_on((0.0, 150.0), Side::Above, "centre line");
    scene.dimension(Side::Above, (-500.0, top), (0.0, 60.0), "y");
    scene.dimension(Side::Below, (-560.0, -140.0), (-440.0, -140.0), "width");
    scene.dimension(Side::Left, (-600.0, -125.0), (-560.0, top), "height");
    scene.view_without_bar("cut across, seen from the rear");
    scene
}

/// The entry on the roof.
pub(super) fn entry() -> Scene {
    let mut scene =
        sketch("roof from above with the cable entry; x and y to the middle of its hole");
    plan(&mut scene);
    scene.rectangle((1180.0, 90.0), (170.0, 120.0), Line::HEAVY);
    scene.circle((1265.0, 150.0), 24.0, Line::VISIBLE);
    scene.dimension(Side::Above, (0.0, 0.0), (1265.0, 150.0), "x");
    scene.dimension(Side::Right, (1600.0, 0.0), (1265.0, 150.0), "y");
    scene.dimension(Side::Below, (1180.0, 90.0), (1350.0, 90.0), "length");
    scene.aligned((1140.0, 90.0), (1140.0, 210.0), 0.0, "width");
    scene.view_without_bar("from above, front at left, right side up");
    scene
}

/// The battery on its floor.
pub(super) fn battery() -> Scene {
    let mut scene = sketch("battery on the floor with length, height and the floor's thickness");
    scene.filled_rectangle((-150.0, -60.0), (1000.0, 60.0), Fill::HATCH, Some(Line::VISIBLE));
    scene.rectangle((150.0, 0.0), (420.0, 240.0), Line::HEAVY);
    for x in [210.0, 480.0] {
        scene.rectangle((x, 240.0), (30.0, 30.0), Line::VISIBLE);
    }
    scene.dimension(Side::Above, (150.0, 270.0), (570.0, 270.0), "length");
    scene.dimension(Side::Right, (570.0, 0.0), (510.0, 270.0), "height");
    scene.dimension(Side::Left, (-150.0, -60.0), (-150.0, 0.0), "floor-thickness");
    scene.label((360.0, 120.0), "width: across the vehicle");
    scene.view_without_bar("from the left side, front at left");
    scene
}

/// A cable's way through the vehicle.
pub(super) fn route() -> Scene {
    let mut scene =
        sketch("vehicle from the side with a cable from panels to controller to battery");
    scene.line(
        &[
            (0.0, 60.0),
            (0.0, 380.0),
            (220.0, 440.0),
            (400.0, 760.0),
            (1800.0, 760.0),
            (1840.0, 60.0),
            (0.0, 60.0),
        ],
        Line::THIN,
    );
    scene.filled_rectangle((700.0, 790.0), (640.0, 30.0), Fill::HATCH, Some(Line::VISIBLE));
    scene.label_on((1020.0, 830.0), Side::Above, "panels");
    scene.line(
        &[(1340.0, 790.0), (1500.0, 790.0), (1500.0, 720.0), (1560.0, 720.0), (1560.0, 420.0)],
        Line::HEAVY,
    );
    scene.rectangle((1480.0, 300.0), (160.0, 120.0), Line::VISIBLE);
    scene.label((1470.0, 360.0), "controller");
    scene.line(&[(1560.0, 300.0), (1560.0, 180.0), (1220.0, 180.0)], Line::HEAVY);
    scene.rectangle((960.0, 70.0), (260.0, 160.0), Line::VISIBLE);
    scene.label((950.0, 150.0), "battery");
    scene.leader((1560.0, 580.0), "length of run 1");
    scene.leader((1400.0, 180.0), "length of run 2");
    scene.view_without_bar("from the left side, front at left; heavy: the runs");
    scene
}
