//! The reader of witness coupons.

#![no_main]

use std::collections::BTreeSet;

const JOB: &str = "fayline = 1\n[job]\ntitle = \"a\"\n[coupons.w]\ndata = \"d.csv\"\n";

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    let Some(job) = fuzz::read(JOB, data) else { return };
    let specimens = &job.specimens["w"];
    assert!(!specimens.is_empty(), "a set that is read has specimens");
    let names: BTreeSet<_> = specimens.iter().map(|specimen| &specimen.specimen).collect();
    assert_eq!(names.len(), specimens.len(), "each specimen stands once");
    for specimen in specimens {
        assert!(!specimen.specimen.is_empty());
        for size in [specimen.width_mm, specimen.overlap_mm, specimen.load_n] {
            assert!(size.is_finite() && size > 0.0, "{specimen:?}");
        }
        let pattern = &specimen.pattern;
        let text = String::from_utf8_lossy(data);
        let line = text.split('\n').nth(pattern.place.line - 1).unwrap_or_default();
        assert!(line.contains(&*pattern.place.text), "{pattern:?}");
    }
});
