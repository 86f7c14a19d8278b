//! The checked-in JSON Schemas are what the code reads and writes.

use std::path::Path;

/// `VALVEWRIGHT_WRITE_SCHEMAS=1 cargo test -p bundle --test all schema::` writes them anew.
#[test]
fn the_schemas_beside_the_format_document_are_those_of_the_code() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../tests/bundles/schemas");
    let mut names = Vec::new();
    let bodies = ("bodies", model::schema::bodies());
    for (name, schema) in bundle::schemas().into_iter().chain([bodies]) {
        let name = format!("{name}.schema.json");
        let text = format!("{}\n", serde_json::to_string_pretty(&schema).unwrap());
        if std::env::var_os("VALVEWRIGHT_WRITE_SCHEMAS").is_some() {
            std::fs::write(folder.join(&name), &text).unwrap();
        }
        let kept = std::fs::read_to_string(folder.join(&name)).unwrap_or_default();
        assert_eq!(kept, text, "{name} differs from the code");
        names.push(name);
    }
    let mut there: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    there.sort();
    assert_eq!(there, names, "no schema is left over");
}
