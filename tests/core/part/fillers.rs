//! What lies in a bore, or only touches a rod, is no material of it: it is left out and named, and the rod stays as it is.

use layload_core::mesh::Body;
use layload_core::part::{GivenRod, PartError, Rod, Role, find_rod};

use super::Tested;
use super::made::{BORES, DISTANCE, at, block, laid, one_shell, pin, read, ring, rod};
use crate::mesh::shapes::Solid;

fn found(solid: &Solid) -> Result<Result<Rod, PartError>, Box<dyn std::error::Error>> {
    Ok(find_rod(read(solid)?, &GivenRod::default()))
}

/// Facets of a rod's mesh, by their corners in any order.
fn facets(rod: &Rod) -> Vec<[[u64; 3]; 3]> {
    let corners = |facet| rod.mesh.corners(facet).map(|p| [p.x, p.y, p.z].map(f64::to_bits));
    let mut list: Vec<_> = (0..rod.mesh.facets().len()).map(corners).collect();
    list.sort_unstable();
    list
}

/// The rod with something beside it is the rod without, to the bit, and what was left out has this role.
fn is_as_without(what: &str, base: &Solid, more: &[Solid], role: impl Fn(&Role) -> bool) -> Tested {
    let alone = found(base)??;
    let whole = more.iter().fold(base.clone(), Solid::with);
    let rod = found(&whole)?.map_err(|error| format!("{what}: {error}"))?;
    assert_eq!(rod.small_end.bore, alone.small_end.bore, "{what}");
    assert_eq!(rod.big_end.bore, alone.big_end.bore, "{what}");
    assert_eq!(facets(&rod), facets(&alone), "{what}");
    assert_eq!(rod.left_out.len(), more.len(), "{what}");
    assert!(rod.left_out.iter().all(|body| role(&body.role)), "{what}: {:?}", rod.left_out);
    Ok(())
}

/// Name, solid, distance of its bores.
type Base = (&'static str, Solid, f64);

fn bases() -> Result<[Base; 2], Box<dyn std::error::Error>> {
    Ok([("three shells", laid(rod([64, 64])), DISTANCE), ("one shell", one_shell()?, 90.0)])
}

#[test]
fn pins_loose_exact_and_too_big() -> Tested {
    let fills = |role: &Role| matches!(role, Role::Fills { hollow: false, .. });
    for (name, base, distance) in bases()? {
        for off in [-0.05, -0.01, -0.005, -0.002, -0.001, 0.0, 0.01, 0.1, 0.3] {
            for sides in [64, 40] {
                for (end, y) in [(0, 0.0), (1, distance)] {
                    let pin = laid(pin(BORES[end] + off, y, (-15.0, 15.0), sides));
                    is_as_without(&format!("{name}, {off} mm over, {sides} sides, end {end}"), &base, &[pin], fills)?;
                }
            }
        }
        let short = laid(pin(BORES[0], 0.0, (-3.0, 3.0), 64));
        is_as_without("a pin shorter than the bore", &base, &[short], fills)?;
    }
    Ok(())
}

#[test]
fn bushes_and_what_lies_in_them() -> Tested {
    let hollow = |role: &Role| matches!(role, Role::Fills { bore: "big-end", hollow: true });
    for (name, base, distance) in bases()? {
        for outer in [BORES[1] - 0.01, BORES[1], BORES[1] + 0.06] {
            let bush = laid(ring([outer, 10.0], distance, (-6.5, 6.5), 60));
            is_as_without(&format!("{name}, bush of {outer} mm"), &base, core::slice::from_ref(&bush), hollow)?;
            let pin = laid(pin(10.0, distance, (-20.0, 20.0), 64));
            let both = |role: &Role| matches!(role, Role::Fills { bore: "big-end", .. });
            is_as_without(&format!("{name}, bush of {outer} mm and pin"), &base, &[bush, pin], both)?;
        }
    }
    Ok(())
}

#[test]
fn what_only_touches() -> Tested {
    let touches = |role: &Role| matches!(role, Role::Touches);
    for (name, base, _) in bases()? {
        let washer = laid(ring([11.0, 6.7], 0.0, (7.0, 8.5), 64));
        is_as_without(&format!("{name}, washer"), &base, &[washer], touches)?;
        let washer = laid(ring([11.0, BORES[0]], 0.0, (7.0, 8.5), 60));
        is_as_without(&format!("{name}, washer of the bore's size"), &base, &[washer], touches)?;
        for from in [7.0, 6.95] {
            let plate = laid(block([from, 25.0, -5.0], [10.0, 50.0, 5.0]));
            // Another of the rod's own shells ends where the plate begins only in the rod of one shell.
            if name == "one shell" {
                is_as_without(&format!("{name}, plate at {from}"), &base, &[plate], touches)?;
            }
        }
    }
    Ok(())
}

#[test]
fn a_block_united_by_overlap_is_of_the_rod() -> Tested {
    for (_, base, _) in bases()? {
        let alone = found(&base)??;
        let thicker = found(&base.with(&laid(block([2.0, 25.0, -5.0], [10.0, 50.0, 5.0]))))??;
        assert!(thicker.left_out.is_empty() && thicker.overlapping);
        assert!(thicker.mesh.facets().len() > alone.mesh.facets().len());
    }
    Ok(())
}

#[test]
fn rods_that_overlap_are_several() -> Tested {
    for (name, base, _) in bases()? {
        for shift in [[0.0, 3.0, 0.0], [4.0, 0.0, 0.0], [0.0, 0.0, 5.0], [2.0, 2.0, 2.0]] {
            // Two rods in pieces on the same axes are one thicker rod in pieces: nothing tells them apart.
            if name == "three shells" && shift == [0.0, 0.0, 5.0] {
                continue;
            }
            let end = found(&base.clone().with(&at(base.clone(), shift)))?;
            // A rod in three pieces beside another is no rod piece by piece.
            let refused = match end {
                Err(PartError::SeveralRods { count: 2 }) => true,
                Err(PartError::NotARod { .. }) => name == "three shells",
                _ => false,
            };
            assert!(refused, "{name} moved by {shift:?}");
        }
    }
    Ok(())
}

#[test]
fn a_shank_in_its_bore_is_no_rod() -> Tested {
    let small = ring([12.0, BORES[0]], 0.0, (-7.0, 7.0), 64);
    let big = ring([19.0, BORES[1]], DISTANCE, (-7.0, 7.0), 64);
    let shank = block([-6.0, 0.0, -5.0], [6.0, DISTANCE - 14.0, 5.0]);
    let end = found(&small.with(&big).with(&shank))?;
    assert!(matches!(end, Err(PartError::NotARod { .. })), "{:?}", end.map(|rod| rod.center_distance));
    Ok(())
}

#[test]
fn caps() -> Tested {
    let name = |gap: f64| format!("cap {gap} mm off");
    let split = crate::mesh::files::test_mesh("half_bore_with_cap")?;
    let parts: Vec<Body> = read(&Solid::of_stl(&split)?)?[0].pieces();
    assert_eq!(parts.len(), 2);
    // The rod lies with its pins along z and its length along x.
    let of = |body: &Body| Solid {
        points: body.mesh.points().iter().map(|p| p * 1e3).collect(),
        facets: body.mesh.facets().to_vec(),
    };
    let (lower, cap) = (of(&parts[0]), of(&parts[1]));
    let off = |gap: f64| lower.clone().with(&at(cap.clone(), [gap, 0.0, 0.0]));
    for gap in [0.001, -0.01, -0.05] {
        let rod = found(&off(gap))??;
        assert!(rod.left_out.is_empty() && rod.overlapping && !rod.big_end.half, "{}", name(gap));
    }
    // Drawn a little apart it is moved onto the rod; farther off it is named.
    for gap in [0.005, 0.01, 0.05] {
        let rod = found(&off(gap))??;
        assert!(rod.left_out.is_empty() && !rod.big_end.half && rod.cap_gap > 0.0, "{}", name(gap));
    }
    let rod = found(&off(0.3))??;
    let role = rod.left_out[0].role;
    // Two fits of half a bore each.
    let told = matches!(role, Role::Cap { bore: "big-end", off } if (off * 1e3 - 0.3).abs() < 0.01);
    assert!(rod.big_end.half && told, "{role:?}");
    // A cap deep in the rod is not joined to it either.
    for sunk in [-0.5, -2.0] {
        let rod = found(&off(sunk))??;
        assert!(rod.big_end.half && rod.left_out.len() == 1, "{}", name(sunk));
        assert!(matches!(rod.left_out[0].role, Role::Cap { .. }), "{}: {:?}", name(sunk), rod.left_out);
    }
    Ok(())
}
