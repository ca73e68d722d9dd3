//! One test program, linked once.
mod agree;
mod architecture;
mod cli;
mod codes;
mod compute;
mod cutting;
mod derive;
mod examples;
mod fail;
mod outside;
mod page;
mod paper;
mod planning;
mod sheets;
mod steps;
mod support;
mod timeline;
