//! The reader of temperature logs, in either unit.

#![no_main]

const JOB: &str = "fayline = 1\n[job]\ntitle = \"a\"\n[bond_day]\nlog = \"d.csv\"\n";
const FAHRENHEIT: &str =
    "fayline = 1\n[job]\ntitle = \"a\"\n[bond_day]\nlog = \"d.csv\"\ntemperature_unit = \"°F\"\n";

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    for job in [JOB, FAHRENHEIT] {
        let Some(job) = fuzz::read(job, data) else { continue };
        let samples = job.temperature_log.map(|log| log.samples).unwrap_or_default();
        assert!(samples.len() > 1, "a log that is read has at least two samples");
        assert!(samples.windows(2).all(|pair| pair[0].time_s < pair[1].time_s), "times rise");
        assert!(samples.iter().all(|sample| sample.time_s.is_finite()));
        assert!(samples.iter().all(|sample| (-60.0..=250.0).contains(&sample.temperature_c)));
        assert!(samples[0].time_s == 0.0, "times are counted from the first sample");
    }
});
