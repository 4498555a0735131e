//! The pages, each a function from a view of a job to markup.

pub(super) mod begin;
pub(super) mod frame;
mod inputs;
pub(super) mod job;
pub(super) mod jobs;
mod longer;
pub(super) mod save;
mod sheet;
