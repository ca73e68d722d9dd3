//! Exact cutting of stock.
