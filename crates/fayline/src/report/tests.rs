//! Tests of the report.
