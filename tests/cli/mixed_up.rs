//! Files of another kind, arguments in the wrong place and slips in tables: each is refused with its cause by name.

use std::fs;
use std::io::Write as _;
use std::path::Path;

use super::Tested;
use super::refusal::refused;
use super::run::{JOB, ROD, check, folder, layload, top};

const LOG_LINE: &str =
    "{\"family\":\"f\",\"outcome\":\"survived\",\"steps\":[{\"rpm\":5000.0,\"throttle\":1.0,\"seconds\":60.0}]}\n";

fn zip(name: &str) -> Result<Vec<u8>, zip::result::ZipError> {
    let mut zip = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    let plain = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
    zip.start_file("[Content_Types].xml", plain)?;
    zip.start_file(name, plain)?;
    zip.write_all(&[b'x'; 400])?;
    Ok(zip.finish()?.into_inner())
}

fn utf16(text: &str, mark: bool, big: bool) -> Vec<u8> {
    let units = mark.then_some(0xfeff).into_iter().chain(text.encode_utf16());
    units.flat_map(|unit: u16| if big { unit.to_be_bytes() } else { unit.to_le_bytes() }).collect()
}

/// Ending, bytes and kind in words.
type Kind = (&'static str, Vec<u8>, &'static str);

#[test]
fn a_script_is_not_taken_for_a_job() {
    let script = "import numpy\nx = 1\nfor k in range(9):\n    print(k)\n    y = k\n\ndef made(a):\n    return a\n";
    assert_eq!(layload_core::FileKind::of(script.as_bytes()), None);
    let settings = b"a = 1\nb = 2\n[other]\nc = 3\n";
    assert_eq!(layload_core::FileKind::of(settings).map(layload_core::FileKind::words), Some("text in TOML"));
}

/// Files of another kind.
fn kinds() -> Result<Vec<Kind>, Box<dyn std::error::Error>> {
    let mut packed = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    packed.write_all(&fs::read(top().join(ROD))?)?;
    let job = fs::read_to_string(top().join(JOB))?;
    let mut glb = b"glTF\x02\0\0\0".to_vec();
    glb.extend([7; 300]);
    let step =
        "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nENDSEC;\nDATA;\n#1=CARTESIAN_POINT('',(0.,0.,0.));\n";
    let motion = "; made for a printer\nG21\nG28 X Y\nM104 S210\nG1 X10.5 Y2 E0.3 F1200\n";
    Ok(vec![
        ("3mf", zip("3D/3dmodel.model")?, "a 3MF file"),
        ("zip", zip("rod.stl")?, "a ZIP archive"),
        ("gz", packed.finish()?, "a file packed with gzip"),
        ("pdf", [b"%PDF-1.7\n%".as_slice(), &[0xb5; 300]].concat(), "a PDF document"),
        ("png", [b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR".as_slice(), &[1; 300]].concat(), "a picture in PNG"),
        ("jpg", [b"\xff\xd8\xff\xe0\0\x10JFIF".as_slice(), &[9; 300]].concat(), "a picture in JPEG"),
        ("glb", glb, "a mesh as binary glTF"),
        ("obj", "# drawn\no rod\nv 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n".repeat(20).into(), "a mesh as OBJ"),
        ("ply", "ply\nformat ascii 1.0\nelement vertex 3\nend_header\n0 0 0\n".into(), "a mesh as PLY"),
        ("step", step.into(), "a STEP model"),
        ("gcode", motion.repeat(10).into(), "G-code"),
        ("html", "<!DOCTYPE html><html><body>rod</body></html>".into(), "a page in HTML"),
        ("xml", "<?xml version=\"1.0\"?><model/>".into(), "text in XML"),
        ("json", "{\"verdict\": {\"holds\": true}}\n".into(), "text in JSON"),
        ("utf16", utf16(&job, true, false), "text in UTF-16"),
        ("utf16big", utf16(&job, true, true), "text in UTF-16"),
        ("utf16bare", utf16(&job, false, false), "text in UTF-16"),
        ("utf16bigbare", utf16(&job, false, true), "text in UTF-16"),
    ])
}

#[test]
fn other_files_in_place_of_each_input() -> Tested {
    let place = folder("mixed_kinds")?;
    let path = |name: &str| place.join(name).display().to_string();
    let out = path("out");
    let mut count = 0;
    for (name, bytes, words) in kinds()? {
        let given = path(name);
        fs::write(&given, bytes)?;
        let uses: [(&str, Vec<&str>); 6] = [
            ("mesh", vec!["check", &given, "--job", JOB]),
            ("job", vec!["check", ROD, "--job", &given]),
            ("card", vec!["check", ROD, "--job", JOB, "--card", &given]),
            ("coupons", vec!["fit", &given, "--out", &out]),
            ("log", vec!["learn", &given, "--mesh", ROD, "--job", JOB]),
            ("study", vec!["study", &given, "--out", &out]),
        ];
        for (place, arguments) in uses {
            // What is wrong with JSON in a log is said line by line.
            if (name, place) == ("json", "log") {
                continue;
            }
            refused(&format!("{name} as {place}"), &layload(&arguments)?, &[words]);
            count += 1;
        }
        assert!(!Path::new(&out).exists(), "{name}");
    }
    assert!(count >= 100, "{count}");
    Ok(())
}

#[test]
fn arguments_in_each_others_places() -> Tested {
    let place = folder("mixed_places")?;
    let path = |name: &str| place.join(name).display().to_string();
    let (card, log, table, out) = (path("card.toml"), path("bench.log"), path("table.csv"), path("out"));
    let (coupons, study) = ("samples/coupons.csv", "samples/study.toml");
    fs::write(&card, layload(&["materials", "PA12-CF15"])?.out)?;
    fs::write(&log, LOG_LINE)?;
    fs::write(&table, "crank_angle_deg,pressure_bar\n0,25.0\n1,24.9\n2,24.7\n")?;
    let ascii = "tests/meshes/ascii_odd_spacing.stl";
    let table_of: [(&[&str], &[&str]); 16] = [
        (&["check", JOB, "--job", ROD], &["a mesh as binary STL, not a job file", "the mesh comes first"]),
        (&["check", JOB, "--job", JOB], &["not an STL: it is a job file", "--job"]),
        (&["check", ROD, "--job", ascii], &["a mesh as ASCII STL, not a job file"]),
        (&["check", ROD, "--job", &card], &["a material card, not a job file", "--card"]),
        (&["check", ROD, "--job", &table], &["a table of rows and columns, not a job file"]),
        (&["check", ROD, "--job", coupons], &["a table of rows and columns, not a job file", "layload fit"]),
        (&["check", ROD, "--job", study], &["a study file, not a job file", "layload study"]),
        (&["check", ROD, "--job", &log], &["a bench log, not a job file"]),
        (&["check", ROD, "--job", JOB, "--card", JOB], &["a job file, not a material card"]),
        (&["check", ROD, "--job", JOB, "--card", ROD], &["a mesh as binary STL, not a material card"]),
        (&["check", coupons, "--job", JOB], &["not an STL: it is a table of rows and columns"]),
        (&["check", &card, "--job", JOB], &["not an STL: it is a material card", "--card"]),
        (&["fit", JOB, "--out", &out], &["a job file, not a table of tests"]),
        (&["study", JOB, "--out", &out], &["a job file, not a study file"]),
        (&["learn", ROD, "--mesh", &log, "--job", JOB], &["a mesh as binary STL, not a bench log"]),
        (&["learn", &log, "--mesh", JOB, "--job", JOB], &["not an STL: it is a job file"]),
    ];
    for (arguments, words) in table_of {
        refused(&format!("{arguments:?}"), &layload(arguments)?, words);
    }
    assert_eq!(fs::read_to_string(&log)?, LOG_LINE);
    Ok(())
}

#[test]
fn decimal_commas_and_other_tables() -> Tested {
    let place = folder("mixed_commas")?;
    let path = |name: &str| place.join(name).display().to_string();
    let job = fs::read_to_string(top().join(JOB))?;
    let job_path = path("job.toml");
    for (from, to, words) in [
        ("bore_mm = 52.0", "bore_mm = 52,0", "a point, not a comma"),
        ("stroke_mm = 46.0", "stroke_mm = 46,5", "a point, not a comma"),
        ("bore_mm = 52.0", "bor_mm = 52.0", "did you mean `bore_mm`?"),
        ("stroke_mm = 46.0", "strok_mm = 46.0", "did you mean `stroke_mm`?"),
        ("[engine.gas]", "[engine.gass]", "did you mean `gas`?"),
        ("wanted_life_h", "wanted_live_h", "did you mean `wanted_life_h`?"),
    ] {
        assert!(job.contains(from), "{from}");
        fs::write(&job_path, job.replacen(from, to, 1))?;
        refused(to, &layload(&["check", ROD, "--job", &job_path])?, &[words]);
    }
    refused("option", &check(&["--bore-mm", "52,5"])?, &["a point, not a comma"]);
    fs::write(&job_path, job.replace("peak_pressure_bar = 28.0", "pressure_table = \"table.csv\""))?;
    for (table, words) in [
        ("angle;bar\n0,5;25,3\n1,5;25,2\n", "line 2 of the pressure table: its numbers have a decimal comma"),
        ("0\t25,3\n1\t25,2\n", "line 1 of the pressure table: its numbers have a decimal comma"),
        ("pressure_bar,crank_angle_deg\n25.3,0\n", "pressure first and crank angle second"),
        ("crank_angle_deg,pressure_kpa\n0,2530\n", "pressure in kPa"),
        ("crank_angle_deg,pressure (psi)\n0,367\n", "pressure in psi"),
        ("crank_angle_rad,pressure_bar\n0,25.3\n", "crank angle in radians"),
        ("time_s,pressure_bar\n0,25.3\n", "time instead of crank angle"),
        ("crank_angle_deg,temperature_c\n0,25.3\n", "head them angle_deg,pressure_bar"),
    ] {
        fs::write(path("table.csv"), table)?;
        refused(table, &layload(&["check", ROD, "--job", &job_path])?, &[words]);
    }
    fs::write(path("table.csv"), utf16("0,25.3\n1,25.2\n", true, false))?;
    refused("table", &layload(&["check", ROD, "--job", &job_path])?, &["text in UTF-16, not a pressure table"]);
    fs::copy(top().join(ROD), place.join("table.csv"))?;
    refused("table", &layload(&["check", ROD, "--job", &job_path])?, &["a mesh as binary STL, not a pressure table"]);
    Ok(())
}

#[test]
fn slips_in_tables_logs_and_studies() -> Tested {
    let place = folder("mixed_slips")?;
    let path = |name: &str| place.join(name).display().to_string();
    let (coupons, out) = (path("coupons.csv"), path("out.toml"));
    let own = fs::read_to_string(top().join("samples/coupons.csv"))?;
    let semicolons = own.replace(',', ";");
    let comma = own.replacen("53.0", "53,0", 1);
    let typo = own.replacen("strength_mpa", "strenght_mpa", 1);
    let other = own.replacen("strength_mpa", "colour", 1);
    let latin: Vec<u8> = own.replacen("T01", "T\u{b0}", 1).chars().map(|c| c as u8).collect();
    for (bytes, words) in [
        (semicolons.into_bytes(), &["parted by semicolons"][..]),
        (own.replace(',', "\t").into_bytes(), &["parted by tabs"]),
        (comma.into_bytes(), &["line 4 has 14 columns", "a decimal comma"]),
        (typo.into_bytes(), &["no column `strenght_mpa`", "did you mean strength_mpa?"]),
        (other.into_bytes(), &["no column `colour`", "columns are specimen"]),
        (latin, &["not text in UTF-8: line 4"]),
    ] {
        fs::write(&coupons, bytes)?;
        refused(words[0], &layload(&["fit", &coupons, "--out", &out])?, words);
    }
    // The mark that some systems put before UTF-8 is no fault.
    fs::write(&coupons, [b"\xef\xbb\xbf".as_slice(), own.as_bytes()].concat())?;
    assert_eq!(layload(&["fit", &coupons, "--out", &out])?.code, Some(0));
    let log = path("bench.log");
    for (from, to, words) in [
        ("\"outcome\"", "\"outcom\"", "did you mean `outcome`?"),
        ("\"family\"", "\"familly\"", "did you mean `family`?"),
        ("survived", "survivd", "did you mean `survived`?"),
        ("60.0", "60,0", "line 2 of the bench log"),
    ] {
        fs::write(&log, format!("{LOG_LINE}{}", LOG_LINE.replacen(from, to, 1)))?;
        refused(to, &layload(&["learn", &log, "--mesh", ROD, "--job", JOB])?, &["line 2", words]);
    }
    let study = path("study.toml");
    let own = fs::read_to_string(top().join("samples/study.toml"))?;
    for (from, to, words) in [
        ("meshes", "mesches", "did you mean `meshes`?"),
        ("sampling", "samplling", "did you mean `sampling`?"),
        ("name = \"rpm\"", "name = \"rmp\"", "did you mean `rpm`?"),
    ] {
        assert!(own.contains(from), "{from}");
        fs::write(&study, own.replacen(from, to, 1))?;
        refused(to, &layload(&["study", &study, "--out", &path("results")])?, &[words]);
    }
    Ok(())
}

/// Help that fits the file: a card is not mended by fewer facets.
#[test]
fn what_is_too_large_is_told_by_its_kind() -> Tested {
    let place = folder("mixed_large")?;
    let path = place.join("large");
    // Without bytes on the disk.
    fs::File::create(&path)?.set_len(17 << 20)?;
    let path = path.display().to_string();
    for (arguments, words) in [
        (vec!["check", ROD, "--job", &path], "a job file has"),
        (vec!["check", ROD, "--job", JOB, "--card", &path], "a card has"),
        (vec!["fit", &path, "--out", "none.toml"], "one line a test"),
        (vec!["learn", &path, "--mesh", ROD, "--job", JOB], "one line a run"),
        (vec!["study", &path, "--out", "none"], "a study has"),
    ] {
        let said = layload(&arguments)?;
        refused(words, &said, &["is larger than 16 MiB", words]);
        assert!(!said.err.contains("facets"), "{}", said.err);
    }
    Ok(())
}
