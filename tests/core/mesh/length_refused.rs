//! Binary files whose length does not fit what they announce.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, MeshError};

use super::shapes::Solid;
use super::stl;

fn refused(bytes: &[u8]) -> Option<MeshError> {
    Mesh::from_stl(bytes, LengthUnit::Millimetre).err()
}

fn block() -> Vec<u8> {
    stl::binary(&Solid::block([3.0, 2.0, 1.5]))
}

#[test]
fn no_facets() {
    assert_eq!(refused(&stl::binary_of(&[])), Some(MeshError::Empty));
}

#[test]
fn cut_short_anywhere() {
    let whole = block();
    for length in 84..whole.len() {
        let present = (length as u64 - 84) / 50;
        assert_eq!(refused(&whole[..length]), Some(MeshError::Truncated { announced: 12, present }), "{length} bytes");
    }
    for length in 1..84 {
        assert!(refused(&whole[..length]).is_some(), "{length} bytes");
    }
}

#[test]
fn cut_short_with_a_header_like_text() {
    let mut whole = block();
    whole[..5].copy_from_slice(b"solid");
    let cut = whole.len() - 30;
    assert_eq!(refused(&whole[..cut]), Some(MeshError::Truncated { announced: 12, present: 11 }));
}

#[test]
fn far_more_facets_announced_than_there_are() {
    // 50 bytes each: 10 GB, and the most that fits the field. Room for them must not be made before they are seen.
    for announced in [200_000_000_u32, 214_748_365, u32::MAX] {
        let mut bytes = block();
        bytes[80..84].copy_from_slice(&announced.to_le_bytes());
        let expected = MeshError::Truncated { announced: u64::from(announced), present: 12 };
        assert_eq!(refused(&bytes), Some(expected));
    }
}

#[cfg(target_pointer_width = "64")]
#[test]
fn more_facets_than_in_two_gibibytes() {
    let limit = (1_u64 << 31) / 50;
    let announced = limit + 1;
    // Pages of zeros that nobody reads take no memory.
    let mut bytes = vec![0; 84 + announced as usize * 50];
    bytes[80..84].copy_from_slice(&(announced as u32).to_le_bytes());
    assert_eq!(refused(&bytes), Some(MeshError::TooMany { count: announced, limit }));
}

#[test]
fn none_announced_but_some_there() {
    let mut bytes = block();
    bytes[80..84].fill(0);
    let error = refused(&bytes).map(|error| error.to_string()).unwrap_or_default();
    assert!(!error.is_empty());
    assert!(!error.contains("only 12"), "says that 12 facets are fewer than none: {error}");
}
