//! Every text of a drawing.

use super::dimension::Dimension;
use super::{Note, Scene};

impl Scene {
    /// Gives every text of the drawing to `with`, which may change it: words in its place, of its
    /// view, labels and dimensions.
    pub fn each_text(&mut self, with: &mut dyn FnMut(&mut String)) {
        with(&mut self.alt);
        if let Some(view) = &mut self.view {
            with(view);
        }
        for note in &mut self.notes {
            match note {
                Note::Words { text, .. } | Note::Label { text, .. } | Note::Framed { text, .. } => {
                    with(text);
                }
                Note::Datum { words, .. } => with(words),
                Note::Stamp { scene, .. } => scene.each_text(with),
                Note::Hole { .. }
                | Note::Arrow { .. }
                | Note::Front { .. }
                | Note::Dot { .. }
                | Note::Keep { .. } => {}
            }
        }
        for dimension in &mut self.dimensions {
            match dimension {
                Dimension::Linear { text, .. }
                | Dimension::Aligned { text, .. }
                | Dimension::Round { text, .. }
                | Dimension::Angle { text, .. } => with(text),
                Dimension::Running { places, .. } => {
                    for (_, text) in places {
                        with(text);
                    }
                }
            }
        }
    }
}
