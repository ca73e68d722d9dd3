//! The packet as people use it: sheets to hand over, survey forms, record and booklet, what changed.
mod booklet;
mod compare;
mod handover;
mod photos;
mod survey;
mod what_if;
