//! The component can reach nothing but the host interface.

use wit_component::DecodedWasm;
use wit_parser::{Resolve, WorldItem, WorldKey};

use super::setting::component;

#[test]
fn only_the_host_interface() {
    let component = wit_component::decode(&std::fs::read(component()).unwrap()).unwrap();
    let DecodedWasm::Component(resolve, world) = component else { panic!("no component") };
    let world = &resolve.worlds[world];
    let names = |(key, _): (&WorldKey, &WorldItem)| resolve.name_world_key(key);
    assert_eq!(world.imports.iter().map(names).collect::<Vec<_>>(), ["layload:parts/host@0.2.0"]);
    for item in world.imports.values() {
        assert_eq!(functions(&resolve, item), ["advance"]);
    }
    assert_eq!(world.exports.iter().map(names).collect::<Vec<_>>(), ["layload:parts/checker@0.2.0"]);
}

fn functions<'a>(resolve: &'a Resolve, item: &WorldItem) -> Vec<&'a str> {
    let WorldItem::Interface { id, .. } = item else { panic!("the import is no interface") };
    resolve.interfaces[*id].functions.keys().map(String::as_str).collect()
}

#[test]
fn size_stays_within_what_hosts_can_ship() {
    // 3.6 MB as it is and 1.35 MB compressed, so that a web page that carries it still opens within seconds on a slow line. A
    // fifth of that is the stress field, without which there is no answer; it may grow a little, but not unseen.
    let bytes = std::fs::read(component()).unwrap();
    assert!(bytes.len() <= 3_600_000, "{} bytes", bytes.len());
    let mut packed = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::best());
    std::io::Write::write_all(&mut packed, &bytes).unwrap();
    let packed = packed.finish().unwrap().len();
    assert!(packed <= 1_350_000, "{packed} bytes compressed");
}
