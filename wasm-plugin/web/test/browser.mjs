// Debian's Chromium on the built page, from the disk as a user opens it, and the native program beside it.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

/** Top of the project. */
export const top = join(dirname(fileURLToPath(import.meta.url)), "../../..");

const page = pathToFileURL(join(top, "target/web/index.html")).href;

/** A path in the project. */
export const inProject = (...names) => join(top, ...names);

/** The native program; its build does not matter for what it says. */
const program = process.env.LAYLOAD ?? inProject("target/debug/layload");

/** What the native program prints. */
export function native(...words) {
  const { stdout, stderr, status } = spawnSync(program, words, { cwd: inProject(), encoding: "utf8", maxBuffer: 1 << 28 });
  // Holds, fails, or no fault found by sections alone.
  if (![0, 1, 3].includes(status)) throw new Error(`${words.join(" ")}: ${stderr}`);
  return stdout;
}

const plain = (text) => text.trim().split(/\s+/).join(" ");

/** Paragraphs of the first screen as they were before they were wrapped: what is indented goes on. */
function paragraphs(text) {
  const list = [];
  for (const line of text.split("\n").filter(Boolean)) {
    if (line.startsWith(" ")) list.push(`${list.pop()} ${plain(line)}`);
    else list.push(plain(line));
  }
  return list;
}

/** Holds an answer against the first screen of the command line: the same sentences under the same words, in the same order. */
export function sameWords({ word, sentence, lines }, text, context = "") {
  const [verdict, ...rest] = paragraphs(text);
  assert.ok(verdict.startsWith(`${word}: ${sentence}`), `${context}: ${word}: ${sentence}\n${verdict}`);
  // What fails first is the first row of the screen's table, and the speed stands in its verdict.
  const told = lines.filter(({ about }) => about !== "First" && about !== "Speed").map(({ about, text }) => `${about} ${text}`);
  assert.ok(told.length >= 4, `${context}: ${told.join("\n")}`);
  const labels = new Set(lines.map(({ about }) => about));
  const labelled = rest.filter((line) => [...labels].some((label) => line.startsWith(`${label} `)));
  assert.deepEqual(told, labelled, context);
  const speed = lines.find(({ about }) => about === "Speed").text;
  assert.ok(verdict.toLowerCase().includes(speed.toLowerCase()), `${context}: ${speed}\n${verdict}`);
}

/** Opens the page in a browser of its own; complaints of the page are collected. */
export async function open({ width = 1280, height = 900, dark = false, url = page } = {}) {
  const profile = mkdtempSync(join(tmpdir(), "layload-page-"));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    headless: true,
    viewport: { width, height },
    colorScheme: dark ? "dark" : "light",
    acceptDownloads: true,
    args: [
      "--no-sandbox",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      "--use-angle=swiftshader",
      "--enable-unsafe-swiftshader",
    ],
  });
  const tab = context.pages()[0] ?? (await context.newPage());
  const complaints = [];
  const asked = [];
  tab.on("pageerror", (error) => complaints.push(String(error)));
  tab.on("console", (message) => {
    // The software renderer of a machine without graphics remarks on its own speed.
    if (message.type() === "error" || (message.type() === "warning" && !/GPU stall|GL Driver/.test(message.text()))) {
      complaints.push(message.text());
    }
  });
  tab.on("request", (request) => asked.push(request.url()));
  await tab.goto(url);
  await tab.waitForSelector("body[data-ready=yes]", { timeout: 30_000 }).catch((error) => {
    throw new Error(`the page did not start: ${complaints.join("; ")}`, { cause: error });
  });
  const close = async () => {
    await context.close();
    rmSync(profile, { recursive: true, force: true });
  };
  return { tab, complaints, asked, close };
}

/** Drops a file on the page as the mouse would. */
export async function drop(tab, name, bytes) {
  const data = await tab.evaluateHandle(
    ({ name, base64 }) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const transfer = new DataTransfer();
      transfer.items.add(new File([bytes], name));
      return transfer;
    },
    { name, base64: Buffer.from(bytes).toString("base64") },
  );
  await tab.dispatchEvent("body", "drop", { dataTransfer: data });
}

/** Waits until nothing is computed any more. */
export async function idle(tab, timeout = 120_000) {
  await tab.waitForSelector("#ready:not([hidden])", { timeout });
}
