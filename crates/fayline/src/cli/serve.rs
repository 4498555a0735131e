//! `fayline serve`.

use std::net::IpAddr;
use std::path::PathBuf;

use clap::Args;

use super::{Exit, Stop, say};
use crate::web;

/// What is to be served, and where.
#[derive(Debug, Args)]
pub(super) struct Asked {
    /// The folder whose jobs are served
    #[arg(default_value = ".")]
    folder: PathBuf,
    /// The port; 0 takes one that is free
    #[arg(long, default_value_t = 8321)]
    port: u16,
    /// The address to listen on; away from this machine a pairing code is asked for
    #[arg(long, value_name = "ADDRESS", default_value = "127.0.0.1")]
    listen: IpAddr,
}

/// Serves until it is stopped.
pub(super) fn run(asked: &Asked) -> Result<Exit, Stop> {
    let folder = asked.folder.display();
    web::serve(&asked.folder, asked.listen, asked.port, |at, code| {
        let code = code.map_or(String::new(), |code| format!("Other machines are asked for this code: {code}\n"));
        say(&format!("The jobs of {folder} are at http://{at}/\n{code}Ctrl-C ends it; what is not saved is lost then.\n"));
    })
    .map_err(Stop::Cannot)?;
    Ok(Exit::Met)
}
