//! Tests of the data files.

use std::collections::BTreeMap;

use proptest::prelude::*;

use super::*;

/// Files in memory.
struct Folder(BTreeMap<String, Vec<u8>>);

impl Files for Folder {
    fn read(&self, name: &str) -> Result<Vec<u8>, String> {
        self.0.get(name).cloned().ok_or_else(|| "there is no such file".to_owned())
    }
}

const COUPONS: &str = "fayline = 1\n[job]\ntitle = \"a\"\n[coupons.w]\ndata = \"d.csv\"\n";
const LOG: &str = "fayline = 1\n[job]\ntitle = \"a\"\n[bond_day]\nlog = \"d.csv\"\n";

fn read(job: &str, data: &[u8]) -> Result<crate::Job, Vec<String>> {
    let folder = Folder([("d.csv".to_owned(), data.to_vec())].into());
    crate::read("jobs/j.toml", job, &folder).map_err(|found| found.iter().map(ToString::to_string).collect())
}

fn specimens(data: &str) -> Result<Vec<Specimen>, Vec<String>> {
    read(COUPONS, data.as_bytes()).map(|mut job| job.specimens.remove("w").expect("the set is read"))
}

fn samples(data: &str) -> Result<Vec<(f64, f64)>, Vec<String>> {
    let log = read(LOG, data.as_bytes())?.temperature_log.expect("the log is read");
    Ok(log.samples.iter().map(|sample| (sample.time_s, sample.temperature_c)).collect())
}

/// The one problem of a data file.
fn refused<T: std::fmt::Debug>(read: Result<T, Vec<String>>) -> String {
    let problems = read.expect_err("a problem");
    assert_eq!(problems.len(), 1, "{problems:?}");
    problems.into_iter().next().unwrap_or_default()
}

#[test]
fn unit_coupons_are_read_with_their_places() {
    let data = "specimen,batch,width_mm,overlap_mm,load_n,pattern\n# remark\n W1 ,A7, 25 ,12.5,6906,CF\n\nW2,,2.5e1,12.5,+7313,60CF/40AF\n";
    let found = specimens(data).unwrap();
    assert_eq!(found.len(), 2);
    assert_eq!((found[0].specimen.as_str(), found[0].batch.as_str()), ("W1", "A7"));
    assert_eq!(
        [found[1].width_mm, found[1].overlap_mm, found[1].load_n].map(f64::to_bits),
        [25.0, 12.5, 7313.0].map(f64::to_bits)
    );
    let pattern = &found[1].pattern;
    assert_eq!((pattern.value.as_str(), pattern.place.line, pattern.place.column), ("60CF/40AF", 5, 22));
    assert_eq!(&*pattern.place.file, "jobs/d.csv");
}

#[test]
fn unit_columns_may_stand_in_any_order_and_some_may_be_absent() {
    let found = specimens("load_n,specimen,overlap_mm,width_mm\n6906,W1,12.5,25\n").unwrap();
    assert_eq!((found[0].load_n.to_bits(), found[0].batch.as_str()), (6906.0_f64.to_bits(), ""));
    assert_eq!(found[0].pattern.value, "");
    assert_eq!(found[0].pattern.place.line, 2);
}

#[test]
fn unit_files_of_spreadsheets_are_read() {
    // A byte order mark, line ends of Windows, quotation marks, empty cells at the end of every line.
    let data = "\u{feff}\"specimen\",width_mm,overlap_mm,load_n,,\r\n\"W 1, left\",25,\"12.5\",6906,,\r\n\"the \"\"good\"\" one\",25,12.5,7000,,\r\n";
    let found = specimens(data).unwrap();
    assert_eq!(found[0].specimen, "W 1, left");
    assert_eq!(found[0].overlap_mm.to_bits(), 12.5_f64.to_bits());
    assert_eq!(found[1].specimen, "the \"good\" one");
}

#[test]
fn unit_a_quotation_mark_that_is_not_closed_quotes_nothing() {
    let found = specimens("specimen,width_mm,overlap_mm,load_n\n\"W1,25,12.5,6906\n").unwrap();
    assert_eq!(found[0].specimen, "\"W1");
}

#[test]
fn unit_every_fault_of_a_data_file_is_told() {
    let data = "specimen,width_mm,overlap_mm,load_n\nW1,25,0,x\nW1,25,12.5\n,25,12.5,6906\n";
    let problems = specimens(data).unwrap_err();
    assert_eq!(problems.len(), 5, "{problems:#?}");
    for (problem, part) in problems.iter().zip([
        "2:7: overlap_mm: 0 is out of range",
        "2:9: load_n: \"x\" is no number",
        "3:1: specimen: the specimen \"W1\" stands here a second time",
        "3:11: load_n: the row ends before this column",
        "4:1: specimen: the specimen has no name",
    ]) {
        assert!(problem.starts_with(&format!("jobs/d.csv:{part}")), "{problem}");
    }
}

#[test]
fn unit_a_column_of_another_unit_is_not_renamed_without_a_word() {
    let problem = refused(specimens("specimen,width_mm,overlap_mm,load_kn\nW1,25,12.5,6.9\n"));
    assert!(problem.contains("in N"), "{problem}");
}

#[test]
fn unit_limits_hold() {
    let head = "specimen,width_mm,overlap_mm,load_n\n";
    for row in ["W1,0.05,12.5,6906", "W1,25,2000,6906", "W1,25,12.5,1e9", "W1,25,12.5,inf", "W1,25,12.5,-1"] {
        refused(specimens(&format!("{head}{row}\n")));
    }
    let many = (0..10_001).map(|i| format!("W{i},25,12.5,6906\n")).collect::<Vec<_>>().concat();
    assert!(refused(specimens(&format!("{head}{many}"))).contains("10001"));
    let large = vec![b'#'; LARGEST_DATA_FILE + 1];
    assert!(refused(read(COUPONS, &large)).contains("larger"));
    let wide = format!("{head}W1,25,12.5,{}", "9".repeat(20_000));
    assert!(refused(specimens(&wide)).contains("bytes"));
}

#[test]
fn unit_logs_are_read_in_seconds_from_the_first_sample() {
    let expected = [(0.0, 16.0), (600.0, 16.5)];
    assert_eq!(samples("time_s,temperature\n100,16\n700,16.5\n").unwrap(), expected);
    assert_eq!(samples("temperature,time\n16,100\n16.5,700\n").unwrap(), expected);
    assert_eq!(
        samples("time,temperature\n2031-11-07T08:30:00,16\n2031-11-07 08:40:00,16.5\n").unwrap(),
        expected
    );
    assert_eq!(
        samples("time,temperature\n2031-11-07T08:30:00+01:00,16\n2031-11-07T07:40:00Z,16.5\n").unwrap(),
        expected
    );
}

#[test]
fn unit_a_log_in_fahrenheit_gives_celsius() {
    let job = format!("{LOG}temperature_unit = \"°F\"\n");
    let log = read(&job, b"time_s,temperature\n0,32\n60,212\n").unwrap().temperature_log.unwrap();
    assert_eq!(
        log.samples.iter().map(|it| it.temperature_c.to_bits()).collect::<Vec<_>>(),
        [0.0_f64, 100.0].map(f64::to_bits)
    );
    let problem = refused(read(&job, b"time_s,temperature\n0,32\n60,600\n"));
    assert!(problem.contains("°F"), "{problem}");
}

#[test]
fn unit_bad_logs_are_refused() {
    for (data, part) in [
        ("time_s,temperature\n0,16\n", "single sample"),
        ("time_s,temperature\n0,16\n0,16\n", "single sample"),
        ("time_s,temperature\n0,16\n0,18\n", "same time and different temperatures"),
        ("time_s,temperature\n0,16\n60,16,5\n", "the row has 3 cells, the heading 2"),
        ("time_s,temperature\n0,16\n60,\"16,5\"\n", "decimal point: 16.5"),
        ("time_s,temperature\n0;16\n60;16\n", "no time"),
        ("time_s,temperature\n5,16\n0,16\n", "earlier"),
        ("time_s,temperature\n0,16\n1e300,16\n", "more than a year"),
        ("time_s,temperature\n0,16\n2031-11-07T08:30:00,16\n", "date and time"),
        ("time,temperature\n0,16\n2031-11-07T08:30:00,16\n", "written in the same way"),
        ("time,temperature\n2031-11-07T08:30:00,16\n2031-11-07T08:40:00Z,16\n", "written in the same way"),
        ("time,temperature\n2031-02-29T08:30:00,16\n2031-03-01T08:40:00,16\n", "no time"),
        ("time_s,temperature\nnan,16\n0,16\n", "no time"),
        ("time_s,temperature\n0,-273\n5,16\n", "out of range"),
        ("time_s,temperature\n0,16\n5\n", "ends before"),
        ("time_s;temperature\n0;16,5\n", "semicolons"),
        ("time_s,humidity,temperature\n0,50,16\n1,50,16\n", "not known"),
        ("time_s,temperature\n", "no rows"),
    ] {
        let problem = samples(data).unwrap_err().remove(0);
        assert!(problem.contains(part), "{data:?}: {problem}");
    }
}

/// "from a logger's CSV (gaps, duplicates, jumps, °F, date-times with a daylight-saving change, 100 000 rows)":
/// a reading that is written twice counts once.
#[test]
fn unit_the_same_reading_twice_counts_once() {
    let once = samples("time_s,temperature\n0,16\n600,16.5\n1200,16\n").unwrap();
    assert_eq!(samples("time_s,temperature\n0,16\n0,16\n600,16.5\n600,16.50\n1200,16\n").unwrap(), once);
    let zoned =
        "time,temperature\n2031-11-07T08:30:00+01:00,16\n2031-11-07T07:30:00Z,16\n2031-11-07T07:40:00Z,16\n";
    assert_eq!(samples(zoned).unwrap().len(), 2);
}

#[test]
fn unit_what_loggers_leave_around_their_numbers_is_no_part_of_them() {
    let data = "\u{feff}# time_s or time? invented\r\n\r\ntime , temperature \r\n \r\n2031-11-07 08:30:00 , 16 \r\n\"2031-11-07 08:40:00\", 16.5\t,,\r\n\r\n";
    assert_eq!(samples(data).unwrap(), [(0.0, 16.0), (600.0, 16.5)]);
}

/// Rows of a local clock, each ten minutes, with or without offsets.
fn local(times: &[&str]) -> String {
    let rows = times.iter().zip(0_u32..).map(|(time, tenth)| format!("{time},16.{tenth}\n"));
    format!("time,temperature\n{}", rows.collect::<Vec<_>>().concat())
}

/// The night of a clock that goes forward: an hour is not there, and no time is lost.
#[test]
fn unit_a_clock_put_forward() {
    let offsets = local(&[
        "2031-03-30T01:40:00+01:00",
        "2031-03-30T01:50:00+01:00",
        "2031-03-30T03:00:00+02:00",
        "2031-03-30T03:10:00+02:00",
    ]);
    let times: Vec<f64> = samples(&offsets).unwrap().iter().map(|(time_s, _)| *time_s).collect();
    assert_eq!(times, [0.0, 600.0, 1200.0, 1800.0]);
    let without = local(&["2031-03-30T01:40", "2031-03-30T01:50", "2031-03-30T03:00", "2031-03-30T03:10"]);
    let problem = refused(samples(&without));
    assert!(problem.contains(":4:1: time: ") && problem.contains("write the offset"), "{problem}");
    // Of an hourly logger, too.
    let hourly = local(&["2031-03-30T00:00", "2031-03-30T01:00", "2031-03-30T03:00", "2031-03-30T04:00"]);
    assert!(refused(samples(&hourly)).contains("put forward"));
    // By day no clock is put forward: the logger stood still, which is a gap.
    let day = local(&["2031-03-30T11:40", "2031-03-30T11:50", "2031-03-30T13:00", "2031-03-30T13:10"]);
    assert_eq!(samples(&day).unwrap().len(), 4);
}

/// The night of a clock that goes back: an hour is there twice.
#[test]
fn unit_a_clock_put_back() {
    let offsets = local(&[
        "2031-10-26T02:40:00+02:00",
        "2031-10-26T02:50:00+02:00",
        "2031-10-26T02:00:00+01:00",
        "2031-10-26T02:10:00+01:00",
    ]);
    let times: Vec<f64> = samples(&offsets).unwrap().iter().map(|(time_s, _)| *time_s).collect();
    assert_eq!(times, [0.0, 600.0, 1200.0, 1800.0]);
    let without = local(&["2031-10-26T02:40", "2031-10-26T02:50", "2031-10-26T02:00", "2031-10-26T02:10"]);
    let problems = samples(&without).unwrap_err();
    assert!(problems[0].contains("earlier") && problems[0].contains("write the offset"), "{problems:?}");
    // An hourly logger writes the same time twice, perhaps with the same temperature; one of two hours leaves out
    // an hour. Neither is bridged.
    let hourly = "time,temperature\n2031-10-26T01:00,16\n2031-10-26T02:00,16\n2031-10-26T02:00,16\n2031-10-26T03:00,16\n";
    let problem = refused(samples(hourly));
    assert!(problem.contains("same time") && problem.contains("write the offset"), "{problem}");
    let slow = local(&[
        "2031-10-25T22:00",
        "2031-10-26T00:00",
        "2031-10-26T02:00",
        "2031-10-26T03:00",
        "2031-10-26T05:00",
    ]);
    assert!(refused(samples(&slow)).contains("put forward or back"));
}

#[test]
fn unit_local_times_are_known_as_such() {
    let log = |data: &str| read(LOG, data.as_bytes()).unwrap().temperature_log.unwrap().local_times;
    assert!(log(&local(&["2031-11-07T08:30", "2031-11-07T08:40"])));
    assert!(!log(&local(&["2031-11-07T08:30Z", "2031-11-07T08:40Z"])));
    assert!(!log("time_s,temperature\n0,16\n60,16\n"));
}

#[test]
fn unit_a_log_of_a_hundred_thousand_rows_is_read_and_one_more_is_not() {
    let rows = |count: u32| {
        let rows =
            (0..count).map(|second| format!("{second},16.{}\n", second % 10)).collect::<Vec<_>>().concat();
        samples(&format!("time_s,temperature\n{rows}"))
    };
    assert_eq!(rows(100_000).unwrap().len(), 100_000);
    assert!(refused(rows(100_001)).contains("100001 rows"));
}

#[test]
fn unit_the_hash_covers_the_job_and_its_data() {
    let hash = |job: &str, data: &str| read(job, data.as_bytes()).unwrap().hash;
    let data = "specimen,width_mm,overlap_mm,load_n\nW1,25,12.5,6906\n";
    assert_eq!(hash(COUPONS, data), hash(COUPONS, data));
    assert_ne!(hash(COUPONS, data), hash(COUPONS, &data.replace("6906", "6907")));
    assert_ne!(hash(COUPONS, data), hash(&format!("{COUPONS}# remark\n"), data));
    assert_eq!(hash(COUPONS, data).len(), 64);
}

proptest! {
    #[test]
    fn law_any_csv_is_read_or_refused(data in "[a-z0-9,;.\"#\n\r\t_:T°µ-]{0,80}") {
        let heading = "specimen,width_mm,overlap_mm,load_n\n";
        for data in [data.clone(), format!("{heading}{data}"), format!("time_s,temperature\n{data}")] {
            for job in [COUPONS, LOG] {
                if let Err(problems) = read(job, data.as_bytes()) {
                    prop_assert!(!problems.is_empty());
                }
            }
        }
    }

    #[test]
    fn law_what_a_log_says_is_read_back(steps in prop::collection::vec((1_u32..10_000, -600_i32..2500), 2..20)) {
        let mut time = 0;
        let mut data = vec!["time_s,temperature\n".to_owned()];
        let mut expected = Vec::new();
        for (index, (step, tenths)) in steps.iter().enumerate() {
            time += if index == 0 { 0 } else { *step };
            let temperature = f64::from(*tenths) / 10.0;
            data.push(format!("{time},{temperature}\n"));
            expected.push((f64::from(time), temperature));
        }
        prop_assert_eq!(samples(&data.concat()).map_err(|problems| TestCaseError::fail(problems.join("\n")))?, expected);
    }
}
