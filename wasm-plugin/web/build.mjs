// Component -> JavaScript (jco) -> two scripts and a page in target/web.
//
// The checker is a text inside a script of its own, so that the page also opens from a disk, where browsers start no
// worker from a file.

import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync, statSync, writeFileSync, copyFileSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const top = join(here, "../..");
const component = join(top, "target/plugin/layload.wasm");
const glue = join(here, "src/checker/component");
const out = join(top, "target/web");

rmSync(glue, { recursive: true, force: true });
const jco = join(here, "node_modules/.bin/jco");
const options = ["--instantiation", "sync", "--name", "layload", "--quiet", "--no-nodejs-compat"];
execFileSync(jco, ["transpile", component, "--out-dir", glue, ...options], { stdio: "inherit" });
if (process.argv.includes("--glue-only")) process.exit(0);

rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
const shared = { bundle: true, minify: true, format: "iife", target: "es2022", legalComments: "none", logLevel: "warning" };

const worker = await build({
  ...shared,
  entryPoints: [join(here, "src/checker/worker.ts")],
  loader: { ".wasm": "binary" },
  write: false,
});
const text = JSON.stringify(worker.outputFiles[0].text);
writeFileSync(join(out, "checker.js"), `globalThis.layloadChecker=${text};\n`);
await build({ ...shared, entryPoints: [join(here, "src/page.ts")], outfile: join(out, "page.js"), metafile: true });
copyFileSync(join(here, "src/index.html"), join(out, "index.html"));
copyFileSync(join(here, "src/style.css"), join(out, "style.css"));
writeFileSync(join(out, "LICENCES.txt"), licences());

const size = readdirSync(out).reduce((sum, name) => sum + statSync(join(out, name)).size, 0);
console.log(`target/web/index.html: ${size} bytes in all`);

/** Licence texts of what goes into the page. */
function licences() {
  const lock = JSON.parse(readFileSync(join(here, "package-lock.json"), "utf8"));
  const direct = ["three", "@observablehq/plot"];
  const wanted = new Set();
  const add = (name) => {
    if (wanted.has(name)) return;
    wanted.add(name);
    for (const next of Object.keys(lock.packages[`node_modules/${name}`]?.dependencies ?? {})) add(next);
  };
  direct.forEach(add);
  const parts = [];
  for (const name of [...wanted].sort()) {
    const folder = join(here, "node_modules", name);
    const file = readdirSync(folder).find((file) => /^licen[cs]e/i.test(file));
    if (file) parts.push(`${name}\n\n${readFileSync(join(folder, file), "utf8").trim()}\n`);
  }
  return parts.join(`\n${"-".repeat(80)}\n\n`);
}
