//! Text files that are no STL, or damaged: each is refused with its line.

use layload_core::mesh::{Mesh, MeshError};
use layload_core::{FileKind, LengthUnit};

use super::shapes::Solid;
use super::stl;

fn text() -> String {
    stl::ascii(&Solid::block([3.0, 2.0, 1.5]))
}

fn refused(text: &str) -> Option<MeshError> {
    Mesh::from_stl(text.as_bytes(), LengthUnit::Millimetre).err()
}

/// Line of the refusal, if it is one of syntax.
fn line(text: &str) -> Option<usize> {
    match refused(text) {
        Some(MeshError::Syntax { line, .. }) => Some(line),
        _ => None,
    }
}

#[test]
fn coordinates_that_are_no_numbers() {
    for word in ["nan", "NaN", "-inf", "infinity", "1e99", "0x10", "1,5", "--1", "1e", ""] {
        // The first vertex stands on line 4: solid, facet, outer loop, vertex.
        let first = text().replacen("vertex 0e0", &format!("vertex {word}"), 1);
        assert_eq!(line(&first), Some(4), "`{word}`");
    }
}

#[test]
fn a_decimal_comma_is_named() {
    let error = refused(&text().replace('.', ",").replacen("vertex 0e0", "vertex 0,5", 1)).map(|e| e.to_string());
    assert!(error.as_ref().is_some_and(|told| told.contains("decimal comma")), "{error:?}");
}

#[test]
fn a_fourth_number() {
    assert_eq!(line(&text().replacen("vertex", "vertex 1", 1)), Some(4));
}

#[test]
fn facets_of_two_or_four_corners() {
    let lines: Vec<String> = text().lines().map(String::from).collect();
    let without = [&lines[..3], &lines[4..]].concat().join("\n");
    assert_eq!(line(&without), Some(7), "two corners end at endfacet");
    let doubled = [&lines[..4], &lines[3..]].concat().join("\n");
    assert_eq!(line(&doubled), Some(9), "four corners end at endfacet");
}

#[test]
fn words_out_of_place() {
    assert_eq!(line("solid\nvertex 0 0 0\nendsolid"), Some(2));
    assert_eq!(line("solid\nfacet normal 0 0 1\nfacet normal 0 0 1\nendsolid"), Some(3));
    assert_eq!(line("solid\nsphere 0 0 0 5\nendsolid"), Some(2));
    assert_eq!(line(&text().replacen("endfacet", "endfacet\nendfacet", 1).replacen("facet normal", "x", 1)), Some(2));
}

#[test]
fn an_endfacet_too_many() {
    // Otherwise the facet before it would count twice.
    assert!(matches!(
        refused(&text().replacen("endfacet", "endfacet\nendfacet", 1)),
        Some(MeshError::Syntax { line: 9, .. })
    ));
}

#[test]
fn cut_short_anywhere() {
    let whole = text();
    let end = whole.find("endsolid").unwrap_or_default();
    for cut in (6..end).step_by(7) {
        let error = refused(&whole[..cut]);
        assert!(matches!(error, Some(MeshError::Syntax { .. })), "cut at byte {cut}: {error:?}");
    }
}

#[test]
fn no_facets() {
    for text in ["", " \r\n\t\n", "solid\nendsolid\n", "solid nothing here\n\nendsolid nothing here"] {
        assert_eq!(refused(text), Some(MeshError::Empty), "{text:?}");
    }
}

#[test]
fn other_texts() {
    assert_eq!(refused("x"), Some(MeshError::NotStl));
    // The last is long enough to be looked at as binary.
    let corners = "v 0.5 0.5 0.5\n".repeat(400);
    for (text, kind) in [
        ("# a drawing\nv 0 0 0\nv 1 0 0\nf 1 2 3\n", FileKind::Obj),
        ("<?xml version=\"1.0\"?><model/>", FileKind::Xml),
        (&corners, FileKind::Obj),
    ] {
        assert_eq!(refused(text), Some(MeshError::OtherKind { kind }), "{text:?}");
    }
}
