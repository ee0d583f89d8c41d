// A whole session of a user in Chromium, at the widths of a desk and of a phone.

import assert from "node:assert/strict";
import { mkdirSync, readFileSync } from "node:fs";
import { after, before, describe, test } from "node:test";
import { drop, idle, inProject, native, open, sameWords } from "./browser.mjs";

const JOB = inProject("samples/bench_single.toml");
const ROD = "samples/thin_web_rod.stl";
const shots = inProject("target/web-shots");
mkdirSync(shots, { recursive: true });

const axeSource = readFileSync(inProject("wasm-plugin/web/node_modules/axe-core/axe.min.js"), "utf8");

/** Rules of accessibility that the page breaks as it stands. */
async function barriers(tab) {
  await tab.evaluate(axeSource);
  const { violations } = await tab.evaluate(() => globalThis.axe.run({ preload: false }));
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`);
}

const text = (tab, selector) => tab.textContent(selector);
const fullText = (tab) => tab.textContent("#answer");
const overflow = (tab) => tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

for (const look of [
  { name: "desk", width: 1280, height: 900 },
  { name: "phone-dark", width: 390, height: 844, dark: true },
]) {
  describe(`a session at ${look.width} px`, { concurrency: 1 }, () => {
    let page;
    let tab;
    let verdict;
    before(async () => {
      page = await open(look);
      tab = page.tab;
      // What is looked at here is the page, not the stress field's answer; that has a session of its own.
      await tab.check("#quick");
    });
    after(() => page.close());

    test("it begins empty, cautious and without barriers", async () => {
      assert.match(await text(tab, "#cautions"), /shield/);
      assert.deepEqual(await barriers(tab), []);
      assert.ok((await overflow(tab)) <= 0);
    });

    test("a check without a part says what is missing", async () => {
      await tab.click("#check");
      await idle(tab);
      assert.match(await text(tab, "#problem"), /open or drop an STL/);
    });

    test("a broken file is refused with help", async () => {
      await drop(tab, "broken.stl", readFileSync(inProject("tests/meshes/open.stl")));
      await tab.waitForSelector("#problem:not([hidden]) >> text=surface is open");
      await idle(tab);
      assert.match(await text(tab, "#problem"), /Help: close the surface/);
      await drop(tab, "nothing.stl", Buffer.from("no mesh"));
      await tab.waitForSelector("#problem >> text=not an STL");
      await idle(tab);
    });

    test("a dropped rod is recognised, measured and painted by thickness", async () => {
      await drop(tab, "rod.stl", readFileSync(inProject(ROD)));
      await tab.waitForSelector("#facts:not([hidden])");
      await idle(tab);
      assert.equal(await tab.isVisible("#problem"), false);
      assert.match(await text(tab, "#facts"), /connecting rod.*bores 13\.0 and 24\.0 mm/);
      assert.equal(await tab.inputValue("#paint"), "thickness");
      assert.match(await text(tab, "#legend-words"), /Wall thickness/);
      assert.match(await text(tab, "#walls"), /beads/);
    });

    test("what the engine needs is asked for by name", async () => {
      await tab.click("#check");
      await idle(tab);
      const problem = await text(tab, "#problem");
      assert.match(problem, /missing/);
      assert.match(problem, /Help: set “(Stroke|Cylinder bore|Piston, rings and pin|Family)”\./);
      // Neither an option of the command line nor a key of a job file.
      assert.doesNotMatch(problem, /--[a-z]|[a-z]\.[a-z]/);
    });

    test("numbers that are none are pointed at", async () => {
      await tab.fill("#engine-boreMm", "wide");
      await tab.click("#check");
      await idle(tab);
      assert.match(await text(tab, "#problem"), /Cylinder bore is not a number/);
      assert.equal(await tab.evaluate(() => document.activeElement?.id), "engine-boreMm");
      assert.equal(await tab.getAttribute("#engine-boreMm", "aria-invalid"), "true");
    });

    test("a filled-in form gives the verdict, the figures and the curves", async () => {
      await tab.fill("#engine-boreMm", "34");
      await tab.fill("#engine-strokeMm", "46");
      await tab.fill("#engine-reciprocatingMassG", "42");
      await tab.selectOption("#material-name", "PA12-CF15");
      await tab.fill("#duty-wantedLifeH", "2");
      await tab.fill('[aria-label="Speed in rpm, step 1"]', "5000");
      await tab.click("#check");
      await idle(tab);
      assert.equal(await tab.isVisible("#problem"), false, await text(tab, "#problem"));
      verdict = await text(tab, "#verdict");
      assert.match(verdict, /NO FAULT FOUND|FAILS/);
      assert.doesNotMatch(verdict, /HOLDS/);
      assert.match(verdict, /5000 rpm/);
      assert.match(verdict, /not an approval/);
      assert.equal(await tab.inputValue("#paint"), "use");
      assert.match(await text(tab, "#legend-words"), /Stress over what lasts/);
      assert.ok((await tab.locator("#life-chart svg circle").count()) >= 8);
      assert.equal(await tab.locator("#area-chart svg").count(), 1);
      assert.match(await text(tab, "#spots"), /fatigue/);
      assert.match(await text(tab, "#changes"), /×/);
      assert.doesNotMatch(await fullText(tab), /NaN|undefined|Infinity/);
      assert.ok((await overflow(tab)) <= 0);
      await tab.screenshot({ path: `${shots}/${look.name}-verdict.png`, fullPage: true });
    });

    test("the part turns by mouse and by keys", async () => {
      const view = () => tab.getAttribute("#part-canvas", "data-view");
      await tab.locator("#part-canvas").scrollIntoViewIfNeeded();
      const first = await view();
      assert.match(first, /turned/);
      await tab.focus("#part-canvas");
      for (let press = 0; press < 4; press++) await tab.keyboard.press("ArrowRight");
      await tab.waitForTimeout(200);
      const turned = await view();
      assert.notEqual(turned, first);
      const box = await tab.locator("#part-canvas").boundingBox();
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await tab.mouse.move(x, y);
      await tab.mouse.down();
      await tab.mouse.move(x + 60, y - 20, { steps: 4 });
      await tab.mouse.up();
      await tab.waitForTimeout(200);
      assert.notEqual(await view(), turned);
      await tab.focus("#part-canvas");
      await tab.keyboard.press("Home");
      await tab.waitForTimeout(200);
      assert.equal(await view(), first);
    });

    test("a pressed facet tells its value", async () => {
      const box = await tab.locator("#part-canvas").boundingBox();
      for (const share of [0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65]) {
        await tab.mouse.click(box.x + box.width / 2, box.y + box.height * share);
        if (/of facet \d+/.test(await text(tab, "#layer-words"))) return;
      }
      assert.fail("no facet was met");
    });

    test("another material makes the answer stale, and another answer", async () => {
      await tab.selectOption("#material-name", "PLA");
      assert.match(await tab.getAttribute("#answer", "class"), /stale/);
      await tab.click("#check");
      await idle(tab);
      assert.doesNotMatch(await tab.getAttribute("#answer", "class"), /stale/);
      assert.notEqual(await text(tab, "#verdict"), verdict);
      await tab.selectOption("#material-name", "PA12-CF15");
    });

    test("cancelling gives the page back, and the next check works", async () => {
      await tab.click("#check");
      await tab.waitForSelector("#working:not([hidden])");
      const took = await tab.evaluate(async () => {
        const begun = performance.now();
        document.getElementById("cancel").click();
        while (document.getElementById("ready").hidden) await new Promise((go) => setTimeout(go, 1));
        return performance.now() - begun;
      });
      console.log(`control was back after ${took.toFixed(0)} ms`);
      // The promise is 100 ms on an idle machine; ten times that tells it from a check that ran to its end.
      assert.ok(took < 1000, `${took} ms`);
      assert.equal(await text(tab, "#status"), "Stopped.");
      await tab.click("#check");
      await idle(tab);
      assert.equal(await text(tab, "#verdict"), verdict);
    });

    test("directions are scored, shown, and one is chosen", async () => {
      await tab.click("#find-directions");
      await tab.waitForSelector("#directions table");
      await idle(tab);
      assert.match(await text(tab, "#directions"), /Print it/);
      await tab.click('#directions button[data-direction="upright"]');
      assert.equal(await tab.inputValue("#print-direction"), "upright");
      assert.equal(await tab.getAttribute('#directions button[data-direction="upright"]', "aria-pressed"), "true");
      await tab.click("#check");
      await idle(tab);
      assert.match(await text(tab, "#verdict"), /FAILS/);
      await tab.screenshot({ path: `${shots}/${look.name}-upright.png`, fullPage: true });
      assert.deepEqual(await barriers(tab), []);
      assert.ok((await overflow(tab)) <= 0);
    });

    test("a direction without a name can be chosen too", async () => {
      const press = tab.locator("#directions button[data-direction*=',']").last();
      const value = await press.getAttribute("data-direction");
      await press.click();
      assert.equal(await tab.inputValue("#print-direction"), value);
      await tab.click("#check");
      await idle(tab);
      assert.equal(await tab.isVisible("#problem"), false);
      verdict = await text(tab, "#verdict");
    });

    test("the saved job loads again and gives the same answer, here and in the command line's form", async () => {
      await tab.fill("#title", "A session");
      const [download] = await Promise.all([tab.waitForEvent("download"), tab.click("#save-job")]);
      await idle(tab);
      const saved = readFileSync(await download.path(), "utf8");
      assert.equal(download.suggestedFilename(), "job.toml");
      assert.match(saved, /title = "A session"/);
      assert.match(saved, /stroke_mm = 46/);
      await tab.reload();
      await tab.waitForSelector("body[data-ready=yes]");
      await tab.check("#quick");
      await drop(tab, "job.toml", Buffer.from(saved));
      await idle(tab);
      await tab.waitForSelector("#status >> text=was loaded", { state: "attached" });
      await drop(tab, "rod.stl", readFileSync(inProject(ROD)));
      await tab.waitForSelector("#facts:not([hidden])");
      await idle(tab);
      assert.equal(await tab.inputValue("#title"), "A session");
      await tab.click("#check");
      await idle(tab);
      assert.equal(await text(tab, "#verdict"), verdict);
    });

    test("the sample job fills the form, keys without a field included", async () => {
      await tab.setInputFiles("#job-file", JOB);
      await tab.waitForSelector("#status >> text=bench_single.toml", { state: "attached" });
      await idle(tab);
      assert.equal(await tab.inputValue("#engine-peakPressureBar"), "20");
      assert.equal(await tab.locator("#steps tr").count(), 2);
      const [download] = await Promise.all([tab.waitForEvent("download"), tab.click("#save-job")]);
      assert.match(readFileSync(await download.path(), "utf8"), /crankcase_air_c = 50/);
      await idle(tab);
    });

    test("bearings and a clamped cap are filled in, kept and counted", async () => {
      await tab.setInputFiles("#job-file", inProject("samples/bench_bearings.toml"));
      await tab.waitForSelector("#status >> text=bench_bearings.toml", { state: "attached" });
      await idle(tab);
      assert.equal(await tab.inputValue("#part-big-end-ring-bearing"), "6204");
      assert.equal(await tab.inputValue("#part-small-end-ring-interference-mm"), "0.12");
      assert.ok(await tab.isVisible("#part-big-end-ring-dynamic-rating-n"));
      await tab.fill("#part-big-end-ring-dynamic-rating-n", "12700");
      await drop(tab, "bearing_rod.stl", readFileSync(inProject("samples/bearing_rod.stl")));
      await tab.waitForSelector("#facts:not([hidden])");
      await idle(tab);
      await tab.click("#check");
      await idle(tab);
      assert.equal(await tab.isVisible("#problem"), false, await text(tab, "#problem"));
      assert.match(await fullText(tab), /6204/);
      await tab.fill("#part-big-end-ring-bearing", "nonsense");
      await tab.click("#check");
      await idle(tab);
      assert.match(await text(tab, "#problem"), /nonsense is not known/);
      await tab.fill("#part-big-end-ring-bearing", "");
      await tab.fill("#part-big-end-ring-interference-mm", "");
      await tab.fill("#part-big-end-ring-dynamic-rating-n", "");
      await tab.click("#group-cap summary");
      await tab.fill("#part-big-end-cap-torque-n-m", "1.5");
      const [download] = await Promise.all([tab.waitForEvent("download"), tab.click("#save-job")]);
      const saved = readFileSync(await download.path(), "utf8");
      assert.match(saved, /torque_n_m = 1\.5/);
      assert.doesNotMatch(saved, /6204/);
      await idle(tab);
      assert.ok((await overflow(tab)) <= 0);
      await drop(tab, "rod.stl", readFileSync(inProject(ROD)));
      await tab.waitForSelector("#facts:not([hidden])");
      await idle(tab);
    });

    test("a job that names a card asks for the file and uses it", async () => {
      const own = readFileSync(JOB, "utf8").replace('name = "PA12-CF15"', 'card_file = "own.toml"');
      await drop(tab, "with_card.toml", Buffer.from(own));
      await tab.waitForSelector("#attach:not([hidden]) >> text=own.toml");
      await idle(tab);
      await tab.click("#check");
      await idle(tab);
      assert.match(await text(tab, "#problem"), /card/);
      await tab.setInputFiles("#attach-0", inProject("core/src/material/cards/peek.toml"));
      await tab.click("#check");
      await idle(tab);
      assert.equal(await tab.isVisible("#problem"), false, await text(tab, "#problem"));
      assert.match(await text(tab, "#ground"), /PEEK/i);
    });

    test("a part of any kind is answered by its stress field alone", async () => {
      const mount = readFileSync(inProject("samples/places/mount.toml"));
      await drop(tab, "mount.toml", mount);
      await tab.waitForSelector("#attach:not([hidden]) >> text=mount.csv");
      await idle(tab);
      await tab.setInputFiles("#attach-0", inProject("samples/places/mount.csv"));
      await drop(tab, "mount.stl", readFileSync(inProject("samples/places/mount.stl")));
      await tab.waitForSelector("#facts >> text=mount.stl: any");
      await idle(tab);
      await tab.check("#quick");
      await tab.click("#check");
      await idle(tab);
      assert.match(await text(tab, "#problem"), /no sections/);
      await tab.uncheck("#quick");
      await tab.click("#check");
      await idle(tab);
      assert.equal(await tab.isVisible("#problem"), false, await text(tab, "#problem"));
      assert.match(await text(tab, "#spots"), /lug/);
      assert.match(await text(tab, "#area-chart"), /no sections/);
      await tab.check("#quick");
      await drop(tab, "bench_single.toml", readFileSync(JOB));
      await idle(tab);
      await drop(tab, "rod.stl", readFileSync(inProject(ROD)));
      await idle(tab);
    });

    test("a job that is none is refused with its line", async () => {
      await drop(tab, "bad.toml", Buffer.from("[engine]\nbore = 3\n"));
      await tab.waitForSelector("#problem:not([hidden])");
      await idle(tab);
      assert.match(await text(tab, "#problem"), /line 2/);
    });

    test("nothing was asked of a network and nothing complained", () => {
      assert.deepEqual(page.asked.filter((url) => !/^(file|blob|data):/.test(url)), []);
      assert.deepEqual(page.complaints, []);
    });
  });
}

const PLAIN = "samples/plain_rod.stl";
const PISTON = "samples/flat_crown_piston.stl";
const PLATED = "samples/bench_piston_plate.toml";

/** What the page shows of an answer, in the order of the command line's lines. */
const answered = (tab) =>
  tab.evaluate(() => {
    const bare = (element) => element.textContent.replaceAll(/\s+/g, " ").trim();
    const lines = [...document.querySelectorAll("#verdict .lines div")];
    const [word, sentence] = ["word", "sentence"].map((id) => bare(document.getElementById(id)));
    return { word, sentence, lines: lines.map((line) => ({ about: bare(line.querySelector("dt")), text: bare(line.querySelector("dd")) })) };
  });

for (const look of [
  { name: "desk", width: 1280, height: 900 },
  { name: "phone-dark", width: 390, height: 844, dark: true },
]) {
  describe(`a piston at ${look.width} px`, { concurrency: 1 }, () => {
    let page;
    let tab;
    before(async () => {
      page = await open(look);
      tab = page.tab;
      // What is looked at here is the page, not the stress field's answer; that has a session of its own.
      await tab.check("#quick");
    });
    after(() => page.close());

    const visible = (selector) => tab.isVisible(selector);

    test("its job brings its own form", async () => {
      assert.ok(await visible("#group-cap summary"));
      assert.equal(await visible("#piston-rod-length-mm"), false);
      await drop(tab, "plated.toml", readFileSync(inProject(PLATED)));
      await tab.waitForSelector("#status >> text=plated.toml", { state: "attached" });
      await idle(tab);
      assert.equal(await tab.inputValue("#piston-rod-length-mm"), "90");
      assert.equal(await tab.inputValue("#piston-cylinder"), "aluminium");
      assert.equal(await tab.inputValue("#crown-layer-0-thicknessMm"), "3");
      assert.equal(await tab.inputValue("#duty-runS"), "20");
      assert.ok(await visible("#crown-layer-0-thicknessMm"));
      for (const rod of ["#group-cap", "#group-small-ring", "#clearance-bigEnd", "#surroundings-crankPinC"]) {
        assert.equal(await visible(rod), false, rod);
      }
      assert.match(await text(tab, "#print-direction option:checked"), /axis upright/);
    });

    test("it is recognised and checked in its own words, those of the command line", async () => {
      await drop(tab, "piston.stl", readFileSync(inProject(PISTON)));
      await tab.waitForSelector("#facts:not([hidden])");
      await idle(tab);
      assert.match(await text(tab, "#facts"), /piston.*pin bore/);
      await tab.click("#check");
      await idle(tab);
      assert.equal(await visible("#problem"), false, await text(tab, "#problem"));
      sameWords(await answered(tab), native("check", "--quick", PISTON, "--job", PLATED));
      const all = await fullText(tab);
      assert.doesNotMatch(all, /of rods|shank|without limit|small-end|small end|NaN|undefined/);
      assert.match(await text(tab, "#area-title"), /skirt to crown/);
      assert.match(await text(tab, "#area-chart"), /height over the pin/);
      assert.match(await tab.getAttribute("#life-chart svg", "aria-label"), /of pistons reach/);
      assert.ok((await tab.locator("#advice li").count()) > 0);
      assert.ok((await overflow(tab)) <= 0);
      await tab.screenshot({ path: `${shots}/${look.name}-piston.png`, fullPage: true });
      assert.deepEqual(await barriers(tab), []);
    });

    test("it is painted after a check, by what is known of every facet", async () => {
      assert.equal(await tab.inputValue("#paint"), "thickness");
      assert.match(await text(tab, "#legend-words"), /Wall thickness/);
      assert.equal(await tab.isDisabled('#paint option[value="use"]'), true);
      await tab.click("#find-directions");
      await idle(tab);
      assert.match(await text(tab, "#directions"), /Print it (upright|on its side)/);
    });

    test("what lies on its crown is changed, kept and asked for in full", async () => {
      await tab.fill("#crown-layer-0-thicknessMm", "2");
      await tab.fill("#crown-layer-1-thicknessMm", "0.5");
      await tab.click("#check");
      await idle(tab);
      assert.match(await text(tab, "#problem"), /Conductivity is needed/);
      await tab.fill("#crown-layer-1-thicknessMm", "");
      await tab.click("#group-piston-body summary");
      await tab.fill("#part-piston-grooves", "3 1.5 1.7; 6.5 1.5 1.7");
      const [download] = await Promise.all([tab.waitForEvent("download"), tab.click("#save-job")]);
      await idle(tab);
      const saved = readFileSync(await download.path(), "utf8");
      assert.match(saved, /thickness_mm = 2/);
      assert.equal(saved.match(/\[\[piston\.layers\]\]/g)?.length, 1);
      assert.equal(saved.match(/below_crown_mm/g)?.length, 2);
      await drop(tab, "saved.toml", Buffer.from(saved));
      await tab.waitForSelector("#status >> text=saved.toml", { state: "attached" });
      await idle(tab);
      assert.match(await tab.inputValue("#part-piston-grooves"), /^3\.0 1\.5 1\.7; 6\.5 1\.5 1\.7$/);
      // Grooves by hand are of reading the mesh: it is read again before it is checked.
      await tab.click("#check");
      await idle(tab);
      assert.equal(await visible("#problem"), false, await text(tab, "#problem"));
    });

    test("a rod after it has a rod's form and words again", async () => {
      await drop(tab, "job.toml", readFileSync(JOB));
      await tab.waitForSelector("#status >> text=job.toml", { state: "attached" });
      await idle(tab);
      await drop(tab, "rod.stl", readFileSync(inProject(ROD)));
      await tab.waitForSelector("#facts >> text=connecting rod");
      await idle(tab);
      assert.equal(await visible("#piston-rod-length-mm"), false);
      assert.ok(await visible("#group-cap summary"));
      await tab.click("#check");
      await idle(tab);
      sameWords(await answered(tab), native("check", "--quick", ROD, "--job", "samples/bench_single.toml"));
      assert.equal(await tab.inputValue("#paint"), "use");
      assert.match(await text(tab, "#area-chart"), /from the small-end centre/);
      assert.equal(await tab.isDisabled("#find-directions"), false);
      await tab.screenshot({ path: `${shots}/${look.name}-rod.png`, fullPage: true });
      assert.deepEqual(page.complaints, []);
    });
  });
}

test("everything works with the keyboard alone", async () => {
  const { tab, close } = await open();
  try {
    await tab.check("#quick");
    await tab.setInputFiles("#job-file", JOB);
    await idle(tab);
    await tab.setInputFiles("#stl", inProject(ROD));
    await tab.waitForSelector("#facts:not([hidden])");
    await idle(tab);
    const reached = new Set();
    await tab.focus("#stl");
    for (let press = 0; press < 80; press++) {
      reached.add(await tab.evaluate(() => document.activeElement?.id ?? ""));
      await tab.keyboard.press("Tab");
    }
    for (const id of ["stl", "job-file", "save-job", "engine-boreMm", "check", "find-directions", "paint", "layers", "part-canvas"]) {
      assert.ok(reached.has(id), `${id} is not reached by Tab`);
    }
    await tab.focus("#engine-boreMm");
    await tab.keyboard.press("Enter");
    await tab.waitForSelector("#word");
    await idle(tab);
    assert.match(await text(tab, "#status"), /NO FAULT FOUND|FAILS/);
  } finally {
    await close();
  }
});

test("a check is answered by the stress field, after a first look that is no answer", async () => {
  const { tab, close } = await open();
  try {
    await tab.setInputFiles("#job-file", JOB);
    await idle(tab);
    await tab.setInputFiles("#stl", inProject(PLAIN));
    await tab.waitForSelector("#facts:not([hidden])");
    await idle(tab);
    // Every share of the work that the page shows, in its order.
    await tab.evaluate(() => {
      globalThis.shares = [];
      const bar = document.getElementById("progress");
      new MutationObserver(() => bar.hasAttribute("value") && globalThis.shares.push(bar.value)).observe(bar, { attributes: true });
    });
    await tab.click("#check");
    await tab.waitForSelector("#verdict >> text=the stress field is being solved");
    assert.doesNotMatch(await text(tab, "#word"), /HOLDS/);
    await tab.waitForSelector("#ready:not([hidden])", { timeout: 300_000 });
    assert.equal(await tab.isVisible("#problem"), false, await text(tab, "#problem"));
    sameWords(await answered(tab), native("check", PLAIN, "--job", "samples/bench_single.toml"));
    assert.ok((await tab.locator("#life-chart svg circle").count()) >= 8);
    const shares = await tab.evaluate(() => globalThis.shares);
    assert.ok(shares.length > 10 && shares.every((share) => share >= 0 && share <= 1), shares.join(" "));
  } finally {
    await close();
  }
});
