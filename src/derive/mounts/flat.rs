//! Flat pieces of mounts: plates, packers, and the stretch of vehicle that they lie on. Each has one
//! face, "top", with its own x along the length and y along the width.

use crate::derive::Drawing;
use crate::derive::draft::{DraftPiece, face};
use crate::derive::shop;
use crate::derive::work::{Body, Face, PartKind};
use crate::geometry::{Dir3, Frame3, Point3};
use crate::source::Span;
use crate::tables::Material;
use crate::units::{Length, Mass};

/// Packers come in steps of this, mm; a rail's height is known no better.
pub(super) const PACKER_STEP: f64 = 0.5;
/// What packers are cut from: stiff, does not rot, easily sawn.
pub(super) const PACKER: &str = "hdpe";

/// A flat piece in its place.
pub(super) struct Flat {
    pub kind: PartKind,
    /// Name on every sheet.
    pub name: &'static str,
    /// Along own x.
    pub length: Length,
    /// Along own y.
    pub width: Length,
    /// Along own z.
    pub thickness: Length,
    /// Zero is the lower corner.
    pub place: Frame3,
    pub span: Span,
}

impl Flat {
    /// A plate cut from flat bar or sheet.
    pub fn plate(self, drawing: &mut Drawing<'_>, material: &Material) -> usize {
        let body = Body::Plate {
            material: material.clone(),
            length: self.length,
            width: self.width,
            thickness: self.thickness,
            section: shop::flat(material, self.width, self.thickness),
            fold: None,
        };
        self.add(drawing, body, Some(material), None)
    }

    /// A block cut to this height.
    pub fn block(self, drawing: &mut Drawing<'_>, material: &Material) -> usize {
        let body = Body::Block {
            material: material.clone(),
            length: self.length,
            width: self.width,
            height: self.thickness,
        };
        self.add(drawing, body, Some(material), None)
    }

    /// A wedge: `thickness` at full width, `thin` at its own y = 0.
    pub fn wedge(self, drawing: &mut Drawing<'_>, material: &Material, thin: Length) -> usize {
        let body = Body::Wedge {
            material: material.clone(),
            length: self.length,
            width: self.width,
            thin,
            thick: self.thickness,
        };
        self.add(drawing, body, Some(material), None)
    }

    /// A stretch of the vehicle, named by where it is.
    pub fn of_vehicle(self, drawing: &mut Drawing<'_>, mark: String) -> usize {
        self.add(drawing, Body::OnVehicle, None, Some(mark))
    }

    fn add(
        self,
        drawing: &mut Drawing<'_>,
        body: Body,
        material: Option<&Material>,
        mark: Option<String>,
    ) -> usize {
        let thickness = match &body {
            Body::Wedge { thin, thick, .. } => (*thin + *thick) / 2.0,
            _ => self.thickness,
        };
        let volume = self.length * self.width * thickness;
        drawing.draft.add(DraftPiece {
            kind: self.kind,
            name: self.name.to_owned(),
            mark,
            body,
            faces: vec![self.top()],
            place: self.place,
            mass: material.map_or(Mass::ZERO, |material| material.density * volume),
            holes: Vec::new(),
            span: self.span,
        })
    }

    fn top(&self) -> Face {
        face(
            "top",
            Point3::new(Length::ZERO, Length::ZERO, self.thickness),
            (Dir3::X, Dir3::Y, Dir3::Z),
            (self.length, self.width),
            self.thickness,
        )
    }
}
