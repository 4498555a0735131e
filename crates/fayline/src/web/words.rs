//! What the workspace says at length, or in more than one place; short labels stand where they are shown, in `pages/`.

/// Over the list of jobs.
pub(super) const JOBS: &str = "Jobs";
/// In a folder without jobs.
pub(super) const NO_JOBS: &str = "There is no job in this folder yet.";
/// The way to a new job.
pub(super) const BEGIN: &str = "Begin a job";
/// While results that take long are computed.
pub(super) const COMPUTING: &str = "Computing: the bonds are loaded until they give way.";
/// What comes before what is being done.
pub(super) const COMPUTING_STEP: &str = "Computing: ";
/// Where they were called off.
pub(super) const STOPPED: &str = "Called off: what takes long is not computed, so findings are missing here.";
/// Over what is not known.
pub(super) const UNKNOWN: &str = "Not known yet, and what would settle it";
/// Over the fields of a table.
pub(super) const INPUTS: &str = "What the job says";
/// Under that.
pub(super) const EMPTY: &str = "Empty a field to take its key out.";
/// The bar of a what-if.
pub(super) const WHAT_IF: &str = "What if: this is not in the file yet.";
/// Where the file was changed by others.
pub(super) const CHANGED_ON_DISK: &str =
    "The file was changed on disk meanwhile. Nothing was overwritten: see both, then choose.";
/// Where nothing is asked of a stage.
pub(super) const NOT_ASKED: &str =
    "The job has no table for this stage, so nothing is said of it, neither good nor bad.";
/// What a change that was not taken begins with.
pub(super) const REFUSED: &str = "Not taken:";
/// What a value begins with that waits for others of its table.
pub(super) const KEPT: &str = "Kept here, and not in the job until the rest is there:";
/// Under a job that cannot be read.
pub(super) const PROBLEMS: &str = "The job file has mistakes. Nothing is computed until they are mended.";
/// On the page that asks for the code.
pub(super) const PAIR: &str = "Type the code that the bench shows in its terminal.";
/// Where a code was wrong.
pub(super) const WRONG_CODE: &str =
    "That is not the code. After ten wrong ones the bench has to be started again.";
/// What the reading says before anything was tapped.
pub(super) const TAP: &str = "Tap a rivet or a patch to read its numbers.";
/// Over what takes longer and is asked for.
pub(super) const LONGER: &str = "What would do, and how sure is it";
/// What the chances are for.
pub(super) const CHANCES: &str = "How likely the bonds are to give way, where what they depend on scatters. It takes up to a minute, and is a note: it never turns a verdict.";
/// Where sizing was called off.
pub(super) const SIZING_STOPPED: &str = "It was called off before all were tried: smaller sizes may do, too.";
/// At the foot of each page.
pub(super) const FOOT: &str = "It says which requirement is met, by what margin, and what it does not know. The manufacturer's procedure, local rules and qualified people come first.";

/// A key in words: the parts behind the table's own name.
pub(super) fn label(group: &str, key: &str) -> String {
    let rest = key.strip_prefix(group).map_or(key, |rest| rest.trim_start_matches('.'));
    rest.replace('_', " ").replace("].", ": ").replace('[', " ").replace(']', "").replace('.', ": ")
}

/// A table in words, such as "joint rail".
pub(super) fn table(key: &str) -> String {
    let one = |kind: &str| match kind {
        "factors" | "materials" | "adhesives" | "rivets" | "sections" | "members" | "cases" | "joints" => {
            kind.strip_suffix('s').unwrap_or(kind).to_owned()
        }
        other => other.replace('_', " "),
    };
    match key.split_once('.') {
        Some((kind, name)) => format!("{} {name}", one(kind)),
        None if key == "factors" => key.to_owned(),
        None => one(key),
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn unit_keys_read_as_words() {
        assert_eq!(super::label("adhesives.epoxy", "adhesives.epoxy.cure[2].time"), "cure 2: time");
        assert_eq!(super::label("joints.rail", "joints.rail.surface.hours_since"), "surface: hours since");
        assert_eq!(super::table("joints.rail"), "joint rail");
        assert_eq!(super::table("bond_day"), "bond day");
        assert_eq!(super::table("factors"), "factors");
    }
}
