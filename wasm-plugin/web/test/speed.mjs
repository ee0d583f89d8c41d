// Quick looks in Chromium beside the native program on one thread, in one run. `node test/speed.mjs`; not a test.

import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { inProject, open } from "./browser.mjs";

const program = process.env.LAYLOAD ?? inProject("target/release/layload");
const middle = (times) => times.sort((a, b) => a - b)[times.length >> 1];

function nativeMs(...words) {
  const begun = process.hrtime.bigint();
  spawnSync(program, words, { cwd: inProject(), env: { ...process.env, RAYON_NUM_THREADS: "1" }, maxBuffer: 1 << 28 });
  return Number(process.hrtime.bigint() - begun) / 1e6;
}

const { tab, close } = await open();
const job = "samples/bench_single.toml";
const text = readFileSync(inProject(job), "utf8");
for (const rod of ["samples/plain_rod.stl", "samples/i_shank_rod.stl", "samples/split_rod.stl"]) {
  const base64 = readFileSync(inProject(rod)).toString("base64");
  const times = await tab.evaluate(
    async ({ base64, text }) => {
      const stl = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const worker = new Worker(URL.createObjectURL(new Blob([layloadChecker])));
      let last = 0;
      const ask = (kind, ask) =>
        new Promise((resolve) => {
          const id = ++last;
          worker.onmessage = ({ data }) => {
            if (data.id === id && data.at !== "stage") resolve(data.answer);
          };
          worker.postMessage({ id, kind, ask });
        });
      const started = performance.now();
      const { values } = await ask("jobValues", { text });
      const start = performance.now() - started;
      const job = { values, texts: { file: text } };
      const times = [];
      for (let round = 0; round < 12; round++) {
        const begun = performance.now();
        await ask("load", { stl, job });
        await ask("check", { job, quick: true });
        times.push(performance.now() - begun);
      }
      worker.terminate();
      return { start, first: times[0], rest: times.slice(1) };
    },
    { base64, text },
  );
  // What the process takes to start and print is not the check's.
  const idle = middle(Array.from({ length: 9 }, () => nativeMs("materials")));
  const native = middle(Array.from({ length: 9 }, () => nativeMs("check", "--quick", rod, "--job", job))) - idle;
  const chromium = middle(times.rest);
  const show = (ms) => ms.toFixed(1).padStart(8);
  console.log(
    `${rod.padEnd(26)} native ${show(native)} ms   Chromium ${show(chromium)} ms (${(chromium / native).toFixed(2)} times)` +
      `   first ${show(times.first)} ms   start ${show(times.start)} ms`,
  );
}
await close();
