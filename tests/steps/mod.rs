//! Steps of the examples and of small builds: words, order, hold points, messages, own steps.
mod checker;
mod order;
mod own_steps;
mod parts;
mod safety;
mod sheets;
mod support;
mod texts;
