//! Tests of the data files.
