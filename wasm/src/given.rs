//! Plain JavaScript data on its way in.
//!
//! Walked by hand: serde's way brings the words for everything that could be wrong with any type, floating-point text
//! included, which is 10 kB of the page's download. The rules are those of `serde_wasm_bindgen`, less what JSON has not
//! either: `Map` and `BigInt`.

use js_sys::{Array, Number, Object, Reflect, Symbol};
use tabwright_core::Given;
use wasm_bindgen::{JsCast, JsValue};

/// What stands in the data, or the first piece that is no plain data.
pub(crate) fn given(value: &JsValue) -> Result<Given, JsValue> {
    if value.is_null() || value.is_undefined() {
        return Ok(Given::Nothing);
    }
    if let Some(flag) = value.as_bool() {
        return Ok(Given::Flag(flag));
    }
    if let Some(number) = value.as_f64() {
        return Ok(if Number::is_safe_integer(value) { Given::Whole(number as i64) } else { number.into() });
    }
    if let Some(text) = value.as_string() {
        return Ok(Given::Text(text));
    }
    if Array::is_array(value) {
        return Ok(Given::List(Array::from(value).iter().map(|item| given(&item)).collect::<Result<_, _>>()?));
    }
    // Sets, typed arrays and the like show no members.
    let plain = value.is_object() && !Reflect::has(value, &Symbol::iterator())?;
    if !plain {
        return Err(value.clone());
    }
    let mut members = Vec::new();
    for entry in Object::entries(value.unchecked_ref()).iter() {
        let entry: Array = entry.unchecked_into();
        members.push((entry.get(0).as_string().unwrap_or_default(), given(&entry.get(1))?));
    }
    Ok(Given::object(members))
}
