//! Several parts in one file are listed, and one is chosen by its number, whatever the order of facets.

use layload_core::part::{GivenPart, Part, PartError, PartWord, find_part};

use super::Tested;
use super::made::{at, laid, one_shell, read, ring, rod};
use crate::mesh::files;
use crate::mesh::shapes::Solid;

fn given(body: usize) -> GivenPart {
    GivenPart { body: Some(body), ..GivenPart::default() }
}

#[test]
fn one_of_two_rods() -> Tested {
    let (smaller, larger) = (at(laid(rod([64, 64])), [0.0, 100.0, 0.0]), one_shell()?);
    let both = smaller.clone().with(&larger);
    for both in [both.clone(), larger.clone().with(&smaller), both.shuffled(5)] {
        let Err(PartError::SeveralParts { what, list }) = find_part(read(&both)?, &GivenPart::default()) else {
            return Err("chose between two rods".into());
        };
        assert_eq!(what, "2 connecting rods");
        assert!(list.contains("1: connecting rod") && list.contains("2: connecting rod"), "{list}");
        let mut distances = Vec::new();
        for number in [1, 2] {
            let Part::Rod(rod) = find_part(read(&both)?, &given(number))? else { return Err("no rod".into()) };
            assert_eq!(rod.left_out.len(), 1);
            distances.push((rod.center_distance * 1e3).round());
        }
        distances.sort_by(f64::total_cmp);
        assert_eq!(distances, [80.0, 90.0]);
        for number in [0, 3, usize::MAX] {
            let error = find_part(read(&both)?, &given(number));
            assert!(matches!(error, Err(PartError::NoSuchBody { count: 2, .. })), "body {number}");
        }
    }
    Ok(())
}

#[test]
fn equal_rods_keep_their_numbers() -> Tested {
    let one = one_shell()?;
    let both = one.clone().with(&at(one, [0.0, 60.0, 0.0]));
    let place = |solid: &Solid, number| -> Result<f64, Box<dyn std::error::Error>> {
        let Part::Rod(rod) = find_part(read(solid)?, &given(number))? else { return Err("no rod".into()) };
        Ok(rod.small_end.bore.center.y)
    };
    let first = place(&both, 1)?;
    for seed in 1..5 {
        assert!((place(&both.clone().shuffled(seed), 1)? - first).abs() < 1e-9);
        assert!((place(&both.clone().shuffled(seed), 2)? - first - 0.06).abs() < 1e-6);
    }
    Ok(())
}

#[test]
fn rods_that_overlap_can_be_chosen() -> Tested {
    let one = one_shell()?;
    let both = one.clone().with(&at(one.clone(), [0.0, 0.0, 5.0]));
    assert!(matches!(find_part(read(&both)?, &GivenPart::default()), Err(PartError::SeveralParts { .. })));
    let Part::Rod(rod) = find_part(read(&both)?, &given(2))? else { return Err("no rod".into()) };
    assert_eq!(rod.mesh.facets().len(), one.facets.len());
    assert!(!rod.overlapping);
    Ok(())
}

#[test]
fn a_rod_and_a_piston_are_not_chosen_between() -> Tested {
    let piston = at(Solid::of_stl(&files::test_mesh("piston")?)?, [0.0, -80.0, 0.0]);
    let both = one_shell()?.with(&piston);
    let error = find_part(read(&both)?, &GivenPart::default());
    let Err(PartError::SeveralParts { list, .. }) = &error else { return Err(format!("{error:?}").into()) };
    assert!(list.contains("connecting rod") && list.contains("piston"), "{list}");
    for kind in [PartWord::Rod, PartWord::Piston] {
        let part = find_part(read(&both)?, &GivenPart { kind: Some(kind), ..GivenPart::default() })?;
        assert_eq!(matches!(part, Part::Rod(_)), kind == PartWord::Rod);
    }
    let kinds = [1, 2].map(|number| find_part(read(&both).unwrap(), &given(number)));
    assert_eq!(kinds.iter().filter(|part| matches!(part, Ok(Part::Rod(_)))).count(), 1);
    assert_eq!(kinds.iter().filter(|part| matches!(part, Ok(Part::Piston(_)))).count(), 1);
    Ok(())
}

#[test]
fn a_ring_beside_is_no_part() -> Tested {
    let both = one_shell()?.with(&at(ring([12.0, 8.0], 0.0, (0.0, 4.0), 48), [0.0, -60.0, 0.0]));
    let Part::Rod(rod) = find_part(read(&both)?, &GivenPart::default())? else { return Err("no rod".into()) };
    assert_eq!(rod.left_out.len(), 1);
    Ok(())
}
