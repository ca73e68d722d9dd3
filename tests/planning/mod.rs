//! Planning: against known optima, an independent brute force, longest paths and laws.
mod brute_force;
mod checker;
mod dice;
mod faults;
mod instance_file;
mod instances;
mod laws;
mod longest_paths;
mod replanning;
mod slots;
