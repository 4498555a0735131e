//! The report of a job: one HTML page that needs nothing else.

mod charts;
mod page;

pub(crate) use page::html;
