//! Drawings.
