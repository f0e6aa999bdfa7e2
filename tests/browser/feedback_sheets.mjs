// Feedback sheets on paper: each must fit one side of A4, whatever is on it.
import { mkdirSync, writeFileSync } from 'node:fs';
import { launch } from './support.mjs';

const base = process.env.CRESTCOUNT_URL;
const findings = [];

/** Pages of a PDF: its page objects, which Chromium writes uncompressed. */
function pages(pdf) {
  return (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;
}

const browser = await launch(base);
const page = await browser.newPage();
await page.goto(`${base}/staff/sign-in`);
await page.fill('[name=name]', process.env.CRESTCOUNT_STAFF);
await page.fill('[name=password]', process.env.CRESTCOUNT_PASSWORD);
await Promise.all([page.waitForURL('**/class-sets'), page.click('main button[type=submit]')]);

for (const [path, expected] of JSON.parse(process.env.SHEETS)) {
  await page.goto(base + path);
  const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true, printBackground: false });
  if (process.env.SHOTS) {
    mkdirSync('shots', { recursive: true });
    writeFileSync(`shots/feedback${path.replaceAll('/', '-')}.pdf`, pdf);
  }
  if (pages(pdf) !== expected) {
    findings.push(`${path}: ${pages(pdf)} sides of paper, not ${expected}`);
  }
}
await browser.close();
if (findings.length) {
  console.log(findings.join('\n'));
  process.exitCode = 1;
}
