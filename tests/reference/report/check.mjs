// Pages that `layload check --report` wrote, held against the rules of HTML and of accessibility, in light and dark, at the
// widths of a desk and of a phone, and on paper. Pictures of each are left in the folder named last.

import assert from "node:assert/strict";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { HtmlValidate } from "html-validate";
import { chromium } from "playwright-core";

const pages = process.argv.slice(2, -1);
const shots = resolve(process.argv.at(-1));
mkdirSync(shots, { recursive: true });
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Most bytes of a page. */
const MOST_BYTES = 1_500_000;

const validate = new HtmlValidate({
  extends: ["html-validate:standard", "html-validate:document"],
  // Matters of taste, not of validity: a closing slash or a dash in a name of SVG.
  rules: { "long-title": "off", "no-inline-style": "off", "svg-focusable": "off" },
});

const profile = mkdtempSync(join(tmpdir(), "layload-report-"));
const browser = await chromium.launchPersistentContext(profile, {
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  headless: true,
  args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"],
});
let faults = 0;
const complain = (words) => {
  faults += 1;
  console.error(words);
};

try {
  // Neither check may be blind.
  const bad = '<!DOCTYPE html><html lang="en"><head><title>bad</title></head><body><main><h1>a</h1><p id="a"><div id="a"></div></p><img src="data:,"></main></body></html>';
  const refused = await validate.validateString(bad, "bad.html");
  assert.ok(refused.errorCount >= 2, "the validator sees no fault in a faulty page");
  const blind = await browser.newPage();
  await blind.setContent(bad);
  await blind.evaluate(axe);
  const barriers = await blind.evaluate(() => globalThis.axe.run({ preload: false }));
  assert.ok(barriers.violations.some(({ id }) => id === "image-alt"), "axe-core sees no barrier in a page that has one");
  await blind.close();
  for (const page of pages) {
    const name = basename(page, ".html");
    assert.ok(statSync(page).size <= MOST_BYTES, `${name} is too large`);
    const report = await validate.validateString(readFileSync(page, "utf8"), page);
    for (const { messages } of report.results) {
      for (const { ruleId, message, line, column } of messages) complain(`${name}:${line}:${column} ${ruleId}: ${message}`);
    }
    for (const colorScheme of ["light", "dark"]) {
      for (const width of [1280, 390]) {
        const tab = await browser.newPage();
        const asked = [];
        tab.on("request", (request) => asked.push(request.url()));
        await tab.emulateMedia({ colorScheme });
        await tab.setViewportSize({ width, height: 900 });
        const url = pathToFileURL(resolve(page)).href;
        await tab.goto(url);
        if (asked.length !== 1) complain(`${name} asks for ${asked.slice(1)}`);
        await tab.evaluate(axe);
        const { violations, passes } = await tab.evaluate(() => globalThis.axe.run({ preload: false }));
        assert.ok(passes.length > 15, "too few rules apply: the page was not looked at");
        for (const { id, nodes } of violations) {
          complain(`${name} ${colorScheme} ${width}: ${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`);
        }
        const over = await tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        if (over > 0) complain(`${name} is ${over} px wider than a window of ${width} px`);
        await tab.screenshot({ path: join(shots, `${name}-${colorScheme}-${width}.png`), fullPage: true });
        await tab.close();
      }
    }
    for (const format of ["A4", "Letter"]) {
      const tab = await browser.newPage();
      await tab.emulateMedia({ colorScheme: "dark" });
      await tab.goto(pathToFileURL(resolve(page)).href);
      const paper = await tab.pdf({ format, printBackground: true });
      writeFileSync(join(shots, `${name}-${format}.pdf`), paper);
      assert.ok(paper.length > 10_000);
      await tab.close();
    }
    // Chosen numbers lead to their place and back.
    const tab = await browser.newPage();
    await tab.goto(pathToFileURL(resolve(page)).href);
    await tab.click("svg a >> nth=0");
    const target = await tab.evaluate(() => document.querySelector(":target")?.id);
    if (!/^place-\d+$/.test(target ?? "")) complain(`${name}: a number in the drawing leads to ${target}`);
    await tab.close();
  }
} finally {
  await browser.close();
  rmSync(profile, { recursive: true, force: true });
}
if (faults) process.exit(1);
console.log(`${pages.length} pages are valid and without barriers`);
