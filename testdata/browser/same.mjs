// The pages of ten real counties are the same, byte for byte, from the program that serves
// them and from the one file.
//
//   node same.mjs MODULES SERVED_URL FILE_URL
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { resolve } from "node:path";

const [modules, served, file] = process.argv.slice(2);
const puppeteer = createRequire(resolve(modules, "x.js"))("puppeteer-core");
const counties = ["Story, Iowa", "McLean, Illinois", "Thomas, Kansas", "Yuma, Colorado", "Bolivar, Mississippi", "Lancaster, Nebraska", "Cass, North Dakota", "Lubbock, Texas", "Butte, California", "Mitchell, Georgia"];
const crops = [["corn", "120.5", "140"], ["soybeans", "80", "41"], ["wheat", "200", "45"], ["peanuts", "60", "3500"], ["seed_cotton", "90", "1900"], ["long_grain_rice", "150", "6500"]];
const browser = await puppeteer.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
try {
  const pages = [];
  for (const url of [served, file]) {
    const page = await browser.newPage();
    await page.goto(url);
    await page.waitForSelector("form");
    pages.push(page);
  }
  const token = await pages[0].$eval("input[name=token]", (e) => e.value);
  // What only the program that serves can have: its token, and the spreadsheet.
  const bare = (text) => text.replace(/ <button class="second" formaction="\/workbook">Spreadsheet<\/button>/, "").replaceAll(`<input type="hidden" name="token" value="${token}">`, "<!--token-->");
  let bytes = 0;
  for (const county of counties) {
    const fields = [["f1.county", county], ["f1.number", "0417"], ["f1.share", "60"], ["w1.name", "landowner"], ["f1.w1", "40"]];
    crops.forEach(([crop, acres, yieldText], i) => fields.push([`f1.b${i + 1}.crop`, crop], [`f1.b${i + 1}.acres`, acres], [`f1.b${i + 1}.yield`, yieldText], [`f1.b${i + 1}.elected`, i % 2 ? "PLC" : "ARC-CO"]));
    for (const path of ["/known", "/answer"]) {
      const native = bare(await pages[0].evaluate(async (path, fields, token) => {
        const body = new FormData();
        [...fields, ["token", token]].forEach(([name, value]) => body.append(name, value));
        return (await fetch(path, { method: "POST", body })).text();
      }, path, fields, token));
      const alone = await pages[1].evaluate(async (path, fields) => new TextDecoder().decode((await fencerow.send(path, fields)).body), path, fields);
      assert.ok(native.length > 5000, `${county}: ${path} is short`);
      assert.equal(alone, native, `${county}: ${path} differs`);
      bytes += native.length;
    }
  }
  console.log(`${counties.length} counties, ${bytes} bytes of pages, the same from both`);
} finally {
  await browser.close();
}
