// Every sheet of a folder in headless Chromium: one page on its paper, nothing beyond its edge, no accessibility fault,
// nothing that runs or is fetched. Then every record against the schema, by another validator than the library's reader.
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { createRequire } from "node:module";
import puppeteer from "puppeteer-core";

const require = createRequire(import.meta.url);
const Ajv2020 = require("ajv/dist/2020").default;
const axe = readFileSync(require.resolve("axe-core"), "utf8");
const [folder, chromium] = process.argv.slice(2);
const files = readdirSync(folder).sort();
let passed = 0;
let failed = 0;

function judge(name, faults) {
  faults.length === 0 ? (passed += 1) : (failed += 1);
  console.log(`${faults.length === 0 ? "ok  " : "FAIL"} ${name}`);
  for (const fault of faults) console.log(`     ${fault}`);
}

// Pages of a PDF that Chromium writes: one uncompressed /Type /Page object each.
const pages = (pdf) => Buffer.from(pdf).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;

const browser = await puppeteer.launch({ executablePath: chromium, headless: true, args: ["--no-sandbox", "--disable-gpu"] });
for (const name of files.filter((name) => name.endsWith(".html"))) {
  const faults = [];
  const page = await browser.newPage();
  page.on("dialog", (dialog) => { faults.push(`a dialog opened: ${dialog.message()}`); dialog.dismiss(); });
  const url = pathToFileURL(resolve(folder, name)).href;
  page.on("request", (request) => { if (request.url() !== url) faults.push(`asks for ${request.url()}`); });
  await page.setViewport({ width: 816, height: 1056, deviceScaleFactor: 2 });
  await page.goto(url);
  const found = await page.evaluate(() => ({
    scripts: document.scripts.length,
    frames: document.querySelectorAll("iframe, object, embed, img, link").length,
    handlers: [...document.querySelectorAll("*")].flatMap((element) => [...element.attributes]).filter((a) => a.name.startsWith("on")).length,
    ran: "ran" in window,
  }));
  if (found.scripts + found.frames + found.handlers > 0 || found.ran) faults.push(`not inert: ${JSON.stringify(found)}`);
  await page.emulateMediaType("print");
  const over = await page.evaluate(() => {
    const edge = document.body.getBoundingClientRect();
    const beyond = [...document.body.querySelectorAll("*")].filter((element) => {
      const box = element.getBoundingClientRect();
      const style = getComputedStyle(element);
      const shown = box.width > 1.5 && box.height > 1.5 && !element.closest("svg") && style.position !== "absolute";
      return shown && (box.right > edge.right + 1.5 || box.left < edge.left - 1.5);
    });
    return beyond.slice(0, 3).map((element) => `${element.tagName} ${element.className}: ${element.textContent.slice(0, 40)}`);
  });
  for (const element of over) faults.push(`beyond the edge: ${element}`);
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  if (pages(pdf) !== 1) faults.push(`${pages(pdf)} pages`);
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
  for (const { id, help, nodes } of violations) faults.push(`${id}: ${help} (${nodes[0].html.slice(0, 120)})`);
  await page.emulateMediaType("screen");
  writeFileSync(resolve(folder, name.replace(/html$/, "png")), await page.screenshot({ fullPage: true }));
  await page.close();
  judge(name, faults);
}
await browser.close();

for (const [schema, of] of [["visit.schema.json", "visit"], ["card.schema.json", "card"]]) {
  const validate = new Ajv2020({ strict: false, validateFormats: false, allErrors: true }).compile(JSON.parse(readFileSync(resolve(folder, schema), "utf8")));
  for (const name of files.filter((name) => name.startsWith(`${of}-`) && name.endsWith(".json"))) {
    const good = validate(JSON.parse(readFileSync(resolve(folder, name), "utf8")));
    const wanted = !name.includes("-bad-");
    const said = (validate.errors ?? []).slice(0, 4).map((error) => `${error.instancePath}: ${error.message}`);
    judge(name, good === wanted ? [] : wanted ? said : ["the schema lets it pass"]);
  }
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
