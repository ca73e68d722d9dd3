//! Laws of the computing chapters: what must hold for any build.
mod banks;
mod cables;
mod circuits;
mod cures;
mod cut_list;
mod loads;
mod timing;
