//! Tests of reading a whole job, of its schema and of its reference page.

mod reading;
mod written;
