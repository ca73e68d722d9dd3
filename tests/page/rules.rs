//! Page rules that can be counted on a laid-out packet.

use rungsheet::page::lay_out;

use super::{sample, wrongs};

#[test]
fn the_sample_packet_is_sound() {
    let (document, problems) = lay_out(&sample::packet());
    let file = rungsheet::paper::pdf(&document).expect("a sound document can be written");
    let folder = env!("CARGO_TARGET_TMPDIR");
    std::fs::write(format!("{folder}/sample.pdf"), file).expect("the target folder can be written");
    assert_eq!(problems, []);
    assert_eq!(wrongs(&document), Vec::<String>::new());
}
