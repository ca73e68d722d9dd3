//! To be opened with its stage.
