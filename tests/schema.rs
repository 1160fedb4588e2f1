//! The published JSON Schema is what the field table gives. `tests/browser/schema.test.js` puts it before a validator.

use serde_json::Value;
use tabwright_core::setup_schema;

#[test]
fn the_published_schema_is_what_the_field_table_gives() -> Result<(), Box<dyn std::error::Error>> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../www/setup.schema.json");
    let published: Value = serde_json::from_str(&std::fs::read_to_string(path)?)?;
    let wanted = serde_json::to_value(setup_schema())?;
    let remedy = "cargo run -q -p tabwright-core --example schema > www/setup.schema.json";
    assert!(published == wanted, "www/setup.schema.json is not what the field table gives. Write it anew: {remedy}");
    Ok(())
}
