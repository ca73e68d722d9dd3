//! Finished drawings of a sheet, so that none is drawn twice.
//!
//! A sheet is laid out in several ways before the best is known, and once more when the numbers of all
//! pages are. Its drawings depend on none of that but the room that they get.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use super::Scene;
use super::scale::Scale;
use crate::page::model::{Item, Rect};

/// A scene at the scale that fits its room.
#[derive(Debug, Clone)]
pub(super) struct Drawing {
    pub items: Vec<Item>,
    pub bounds: Rect,
    /// Paper mm to a model mm.
    pub factor: f64,
    /// None if not to scale.
    pub scale: Option<Scale>,
    pub fits: bool,
    /// It fits at no scale of the list, though one was asked for.
    pub no_scale: bool,
    /// Words that heavy lines run through.
    pub struck: usize,
    /// Words that found no place.
    pub unplaced: Vec<String>,
}

/// A scene by its place in memory, and the room it was drawn for. Scenes of a packet stay where they are
/// as long as it is laid out.
type Key = (usize, u64, u64);

/// Drawings by scene and room. Only used where all scenes belong to the packet.
#[derive(Debug, Default)]
pub(crate) struct Drawings {
    kept: RefCell<BTreeMap<Key, (Drawing, bool)>>,
    keeps: Cell<bool>,
    last: Cell<bool>,
}

impl Drawings {
    /// From here on drawings are kept.
    pub fn keep(&self) {
        self.keeps.set(true);
    }

    /// Nothing is going to be drawn again but once.
    pub fn last_time(&self) {
        self.last.set(true);
    }

    /// Forgets which drawings were used.
    pub fn begin(&self) {
        self.kept.borrow_mut().values_mut().for_each(|kept| kept.1 = false);
    }

    /// Drops what was not used since the last beginning.
    pub fn tidy(&self) {
        self.kept.borrow_mut().retain(|_, kept| kept.1);
    }

    /// Lets `then` have the scene as drawn for a room.
    pub(super) fn with<T>(
        &self,
        scene: &Scene,
        room: (f64, f64),
        draw: impl FnOnce() -> Drawing,
        then: impl FnOnce(std::borrow::Cow<'_, Drawing>) -> T,
    ) -> T {
        use std::borrow::Cow;
        if !self.keeps.get() {
            return then(Cow::Owned(draw()));
        }
        let key = (std::ptr::from_ref(scene).addr(), room.0.to_bits(), room.1.to_bits());
        let mut kept = self.kept.borrow_mut();
        let key = fitting(&kept, key, room).unwrap_or(key);
        if self.last.get() {
            let known = kept.remove(&key);
            drop(kept);
            return then(Cow::Owned(known.map_or_else(draw, |kept| kept.0)));
        }
        let (drawing, used) = kept.entry(key).or_insert_with(|| (draw(), true));
        *used = true;
        then(Cow::Borrowed(drawing))
    }
}

/// A drawing to scale that was made for a larger room and has room here is the one for here: larger
/// scales had no room there, and its words chose among more places.
fn fitting(kept: &BTreeMap<Key, (Drawing, bool)>, key: Key, room: (f64, f64)) -> Option<Key> {
    if kept.contains_key(&key) {
        return Some(key);
    }
    let alike = kept.range((key.0, 0, 0)..=(key.0, u64::MAX, u64::MAX));
    let mut fitting = alike.filter(|((_, width, height), (drawing, _))| {
        drawing.scale.is_some()
            && drawing.fits
            && f64::from_bits(*width) >= room.0
            && f64::from_bits(*height) >= room.1
            && drawing.bounds.width <= room.0
            && drawing.bounds.height <= room.1
    });
    fitting.next().map(|(key, _)| *key)
}
