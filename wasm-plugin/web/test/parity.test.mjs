// The component gives the same bytes in Chromium as the native program, for every sample with every job.

import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { test } from "node:test";
import { inProject, native, open, sameWords } from "./browser.mjs";

const samples = (extension) => readdirSync(inProject("samples")).filter((name) => name.endsWith(extension)).sort();

test("every sample with every job", async () => {
  const { tab, close } = await open();
  try {
    // The worker by itself, without the page's own questions between.
    await tab.evaluate(() => {
      const worker = new Worker(URL.createObjectURL(new Blob([layloadChecker])));
      let last = 0;
      globalThis.ask = (kind, ask) =>
        new Promise((resolve, reject) => {
          const id = ++last;
          const listen = ({ data }) => {
            if (data.id !== id || data.at === "stage") return;
            worker.removeEventListener("message", listen);
            if (data.at === "answer") resolve(data.answer);
            else reject(new Error(JSON.stringify(data)));
          };
          worker.addEventListener("message", listen);
          worker.postMessage({ id, kind, ask });
        });
    });
    const meshes = samples(".stl");
    // A study names its own job.
    const jobs = samples(".toml").filter((name) => !name.endsWith("study.toml"));
    assert.ok(meshes.length >= 5 && jobs.length >= 2);
    for (const mesh of meshes) {
      const base64 = readFileSync(inProject("samples", mesh)).toString("base64");
      await tab.evaluate((base64) => {
        globalThis.stl = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      }, base64);
      // Rings of one sample fit that rod alone, and are refused in the others.
      const rings = { "bench_bearings.toml": "bearing_rod.stl", "bench_bushed.toml": "bushed_rod.stl" };
      const goes = (job) => !mesh.endsWith("_rod.stl") || (rings[job] ?? mesh) === mesh;
      for (const job of jobs.filter(goes)) {
        const text = readFileSync(inProject("samples", job), "utf8");
        // Directions are chosen for rods only.
        const rod = !mesh.includes("piston");
        const hosted = await tab.evaluate(async ([text, rod]) => {
          const { values } = await ask("jobValues", { text });
          const job = { values, texts: { file: text } };
          await ask("load", { stl: globalThis.stl, job });
          const [check, walls] = [await ask("check", { job, quick: true }), await ask("walls", { job })];
          const directions = rod ? await ask("directions", { job, quick: true, count: 200 }) : {};
          const sweep = await ask("sweep", { job, quick: true, from: 2000, to: 9000, count: 8 });
          return { words: check.words, check: check.json, walls: walls.json, directions: directions.json, sweep: sweep.json };
        }, [text, rod]);
        const screen = native("check", "--quick", `samples/${mesh}`, "--job", `samples/${job}`);
        sameWords(hosted.words, screen, `${mesh} by ${job}`);
        const asked = [`samples/${mesh}`, "--job", `samples/${job}`, "--json"];
        const more = { directions: ["--count", "200"], sweep: ["--from", "2000", "--to", "9000", "--count", "8"] };
        for (const question of ["check", "walls", ...(rod ? ["directions"] : []), "sweep"]) {
          // The stress field is held against in tests/plugin and, once, in a session.
          const quick = question === "walls" ? [] : ["--quick"];
          const said = native(question, ...asked, ...quick, ...(more[question] ?? []));
          assert.ok(said === `${hosted[question]}\n`, `${question} of ${mesh} by ${job} differs`);
        }
      }
    }
  } finally {
    await close();
  }
});
