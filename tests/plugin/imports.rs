//! The component can reach nothing but the host interface.

use std::path::Path;

use wit_component::DecodedWasm;
use wit_parser::{Resolve, WorldItem, WorldKey};

use super::setting::{component, component_with_field};

#[test]
fn only_the_host_interface() {
    for path in [component(), component_with_field()] {
        only_the_host_interface_of(&path);
    }
}

fn only_the_host_interface_of(path: &Path) {
    let component = wit_component::decode(&std::fs::read(path).unwrap()).unwrap();
    let DecodedWasm::Component(resolve, world) = component else { panic!("no component") };
    let world = &resolve.worlds[world];
    let names = |(key, _): (&WorldKey, &WorldItem)| resolve.name_world_key(key);
    assert_eq!(world.imports.iter().map(names).collect::<Vec<_>>(), ["layload:parts/host@0.1.0"]);
    for item in world.imports.values() {
        assert_eq!(functions(&resolve, item), ["advance"]);
    }
    assert_eq!(world.exports.iter().map(names).collect::<Vec<_>>(), ["layload:parts/checker@0.1.0"]);
}

fn functions<'a>(resolve: &'a Resolve, item: &WorldItem) -> Vec<&'a str> {
    let WorldItem::Interface { id, .. } = item else { panic!("the import is no interface") };
    resolve.interfaces[*id].functions.keys().map(String::as_str).collect()
}

#[test]
fn size_stays_within_what_hosts_can_ship() {
    // 2.8 MB as it is and 1.05 MB compressed, so that a web page that carries it still opens within seconds on a slow line:
    // sorting out of bodies, what is usual for every input and the answer's sentences took a tenth more.
    // The field's code makes it a quarter larger; it may grow a little, but not unseen. Its solver took 0.15 MB more when each
    // pass over the cells was joined with its product, for a quarter less of time.
    for (path, most, most_packed) in
        [(component(), 2_800_000, 1_050_000), (component_with_field(), 3_500_000, 1_260_000)]
    {
        let bytes = std::fs::read(path).unwrap();
        assert!(bytes.len() <= most, "{} bytes", bytes.len());
        let mut packed = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::best());
        std::io::Write::write_all(&mut packed, &bytes).unwrap();
        let packed = packed.finish().unwrap().len();
        assert!(packed <= most_packed, "{packed} bytes compressed");
    }
}
