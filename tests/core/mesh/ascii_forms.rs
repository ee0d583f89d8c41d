//! Text files that depart from the usual layout and are still plain to read.

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;

use super::shapes::Solid;
use super::{Tested, files, stl};

/// Corners and facets of a text, and those of the same text in the usual layout.
fn same_as_plain(text: &[u8]) -> Tested {
    let block = Solid::block([3.0, 2.0, 1.5]);
    let (plain, _) = Mesh::from_stl(&stl::binary(&block), LengthUnit::Millimetre)?;
    let (mesh, mended) = Mesh::from_stl(text, LengthUnit::Millimetre)?;
    assert_eq!(mended.facets_in_file, 12);
    assert_eq!(mesh.points(), plain.points());
    assert_eq!(mesh.facets(), plain.facets());
    Ok(())
}

fn text() -> String {
    stl::ascii(&Solid::block([3.0, 2.0, 1.5]))
}

#[test]
fn letter_case() -> Tested {
    same_as_plain(text().to_uppercase().as_bytes())?;
    same_as_plain(text().replace("facet", "Facet").replace("vertex", "vERTEX").as_bytes())
}

#[test]
fn line_ends_and_blank_lines() -> Tested {
    same_as_plain(text().replace('\n', "\r\n").as_bytes())?;
    same_as_plain(text().replace('\n', "\n \t \n\n").as_bytes())?;
    same_as_plain(format!("\n\n  \t{}\n\n", text()).as_bytes())
}

#[test]
fn tabs_and_runs_of_spaces() -> Tested {
    same_as_plain(text().replace(' ', "\t").as_bytes())?;
    same_as_plain(text().replace(' ', "   \t ").as_bytes())
}

#[test]
fn no_name_no_last_line_end_and_a_byte_order_mark() -> Tested {
    let nameless = text().replace(" made here", "");
    same_as_plain(nameless.as_bytes())?;
    same_as_plain(nameless.trim_end().as_bytes())?;
    same_as_plain(format!("\u{feff}{nameless}").as_bytes())
}

#[test]
fn signs_and_exponents() -> Tested {
    let written = text().replace("vertex 3e0 ", "vertex +0.3E+01 ").replace(" 1.5e0\n", " +15.e-1\n");
    assert_ne!(written, text());
    same_as_plain(written.as_bytes())
}

#[test]
fn a_name_that_is_not_ascii() -> Tested {
    same_as_plain(text().replace("made here", "Pleuel für Prüfstand").as_bytes())
}

#[test]
fn a_name_in_a_single_byte_encoding() -> Tested {
    // 0xFC is the letter u with two dots in ISO 8859-1, in which older programs write part names.
    let mut bytes = b"solid Pr\xFCfstand\n".to_vec();
    bytes.extend(text().split_once('\n').map(|(_, rest)| rest).unwrap_or_default().bytes());
    same_as_plain(&bytes)
}

#[test]
fn stored_normals_do_not_matter() -> Tested {
    same_as_plain(text().replace("normal 0 0 0", "normal -nan 1e99 0").as_bytes())
}

#[test]
fn several_solids_in_one_file() -> Tested {
    let (near, far) =
        (Solid::block([1.0; 3]), Solid::block([2.0; 3]).moved(&super::shapes::motion([0.0; 3], [9.0; 3])));
    let both = stl::ascii(&near) + &stl::ascii(&far);
    let (mesh, mended) = Mesh::from_stl(both.as_bytes(), LengthUnit::Metre)?;
    assert_eq!((mended.facets_in_file, mesh.points().len()), (24, 16));
    // Exact: small whole numbers.
    assert_eq!(mesh.mass_properties().volume, 9.0);
    Ok(())
}

#[test]
fn the_file_made_with_odd_spacing() -> Tested {
    let bytes = files::test_mesh("ascii_odd_spacing")?;
    let (mesh, mended) = Mesh::from_stl(&bytes, LengthUnit::Metre)?;
    // Read again as plain words: every three numbers after `vertex` are a corner.
    let text = std::str::from_utf8(&bytes)?.to_lowercase();
    let mut words = text.split_whitespace();
    let mut corners = Vec::new();
    while words.any(|word| word == "vertex") {
        let mut next = || words.next().and_then(|word| word.parse::<f32>().ok()).unwrap_or(f32::NAN);
        corners.push([next(), next(), next()].map(f64::from));
    }
    assert_eq!(mended.facets_in_file, 828);
    let ours: Vec<[f64; 3]> = (0..mesh.facets().len()).flat_map(|f| mesh.corners(f)).map(|p| [p.x, p.y, p.z]).collect();
    assert_eq!(ours, corners);
    Ok(())
}
