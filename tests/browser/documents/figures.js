// Every figure that README.md claims, each with the file that shows it and what stands there; a new one needs a line here.
// A file whose name ends in .rs or .test.js is run by tests/run.

/**
 * `words` as they stand in README.md, with one space for each line's end; `shown` has to be found in `by`.
 * @type {{words: string, by: string, shown: RegExp}[]}
 */
export const FIGURES = [
  { words: "320 random setups", by: "tests/reference/refresh", shown: /\bCOUNT=320\b/ },
  { words: "to 0.01 mm or better", by: "tests/second_opinion.rs", shown: /GAP_TOLERANCE: f64 = 0\.01;/ },
  { words: "windows of the ring to 0.01°", by: "tests/searches.rs", shown: /assert!\(to_edge <= 0\.01,/ },
  { words: "the shortest dropout to 0.01 mm", by: "tests/searches.rs", shown: /shortest[^]*\b0\.01\b/ },
  { words: "a polygon library to 0.1 %", by: "tests/second_opinion.rs", shown: /report\.pad\.coverage, expected, 0\.001,/ },
  { words: "under 2 000 characters", by: "tests/browser/link.test.js", shown: /MOST_CHARS/ },
  { words: "first 30 mm", by: "core/src/fit/parts.rs", shown: /BOOT_LENGTH: f64 = 30\.0;/ },
  { words: "Node 18 or later", by: "www/tools/setup.sh", shown: /Node\.js 18 or later/ },
  { words: "draft 2020-12", by: "tests/browser/schema.test.js", shown: /ajv\/dist\/2020\.js/ },
  { words: "the exit code 2", by: "tests/browser/documents.test.js", shown: /assert\.equal\(one\.status, 2\)/ },
];

/** Figures that claim nothing: names of licences, standards and file formats, a scale, and what is pressed. */
export const NO_CLAIMS = ["Apache-2.0", "+ − 0", "ISO 273", "ISO 2768-1", "R12 and R2000", "1:1", "A4"];
