//! Prints the JSON Schema of a setup file: `schema > www/setup.schema.json`.

fn main() -> std::process::ExitCode {
    match serde_json::to_string_pretty(&tabwright_core::setup_schema()) {
        Ok(text) => println!("{text}"),
        Err(error) => {
            eprintln!("{error}");
            return std::process::ExitCode::FAILURE;
        }
    }
    std::process::ExitCode::SUCCESS
}
