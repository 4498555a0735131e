//! The workspace: a server that shows the jobs of a folder as pages of a browser, on this machine unless told otherwise.
//!
//! Pages are made here and swapped in place by a small script; without it they work as well. No page asks another
//! host for anything.

mod answers;
mod desk;
mod downloads;
mod folder;
mod guard;
mod pages;
mod step;
mod words;
mod work;

use std::net::{IpAddr, SocketAddr};
use std::path::Path;
use std::sync::Arc;

use tokio::net::TcpListener;

use self::desk::Desk;
use self::folder::Folder;
use self::guard::Guard;

/// What the answers are made from.
pub(crate) struct Bench {
    desk: Arc<Desk>,
    guard: Guard,
}

/// Serves a folder until it is told to stop. `ready` is given the address, and the code for other machines.
///
/// # Errors
/// Why it cannot be served, in words.
pub(crate) fn serve(
    folder: &Path,
    address: IpAddr,
    port: u16,
    ready: impl FnOnce(SocketAddr, Option<&str>),
) -> Result<(), String> {
    let shown = folder.display().to_string();
    let folder = Folder::open(folder).map_err(|why| format!("{shown} cannot be served: {why}"))?;
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .map_err(|error| format!("the server cannot start: {error}"))?;
    runtime.block_on(async {
        let cannot = |error: std::io::Error| format!("{address}, port {port} cannot be listened to: {error}");
        let listener = TcpListener::bind((address, port)).await.map_err(cannot)?;
        let at = listener.local_addr().map_err(cannot)?;
        let bench = Arc::new(Bench { desk: Desk::new(folder), guard: Guard::new(at) });
        ready(at, bench.guard.code());
        let stopped = async { drop(tokio::signal::ctrl_c().await) };
        tokio::select! {
            served = axum::serve(listener, answers::router(bench)) => served.map_err(|error| format!("the server stopped: {error}")),
            () = stopped => Ok(()),
        }
    })
}
