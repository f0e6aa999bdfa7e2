// From shown second marks to a record on paper, by a head of department: each
// round once, the first with scripts and the second without.
import { mkdirSync, writeFileSync } from 'node:fs';
import { Walk, asLabHost, launch, press } from './support.mjs';

const base = asLabHost(process.env.CRESTCOUNT_URL);
const rounds = JSON.parse(process.env.ROUNDS);

const button = (page, name) => page.getByRole('button', { name });

async function headSignsIn(walk) {
  const page = await walk.person();
  await page.goto(`${base}/staff/sign-in`);
  await page.fill('[name=name]', process.env.CRESTCOUNT_STAFF);
  await page.fill('[name=password]', process.env.CRESTCOUNT_PASSWORD);
  await press(page, page.locator('main button[type=submit]'));
  return page;
}

/** Settles one point: refused without a reason, then with one. */
async function settlesAPoint(walk, page) {
  const open = page.locator('.marking-point', { hasText: 'to settle' }).first();
  const id = await open.getAttribute('id');
  await open.getByRole('radio').nth(1).check();
  const refused = await press(page, open.getByRole('button'));
  walk.must(refused.status() === 422, `a point without a reason was answered with ${refused.status()}`);
  await walk.check(page, refused);
  const same = page.locator(`#${id}`);
  walk.must(await same.getByRole('radio').nth(1).isChecked(), 'the mark that was chosen is gone');
  await walk.shot(page, 'settling-refused');
  await same.locator('textarea').fill('Their table has the unit in its heading.');
  const kept = await press(page, same.getByRole('button'));
  walk.must(kept.status() === 200, `settling was answered with ${kept.status()}`);
  await walk.check(page, kept);
  const table = page.locator('article', { has: page.locator(`#${id}`) }).locator('table').first();
  walk.must(/Their table has the unit/.test(await table.innerText()), 'the decision is not there');
}

/** Lets the first marks of everything that is left stand. */
async function settlesTheRest(walk, page, round) {
  await walk.shot(page, 'settling');
  for (;;) {
    await page.goto(`${round}/settle`);
    const sheet = page.locator('#open ~ article').first();
    if (!(await sheet.count())) return;
    const form = sheet.locator('details', { hasText: 'All other first marks of this sheet stand' }).last();
    await form.locator('summary').click();
    await form.locator('textarea').fill('Read together: the first marks follow the ruling.');
    await press(page, form.getByRole('button'));
  }
}

async function hasAClassMarkedAgain(walk, page) {
  const form = page.locator('#decide-again');
  await form.locator('summary').click();
  const refused = await press(page, form.getByRole('button'));
  walk.must(refused.status() === 422, `no class was answered with ${refused.status()}`);
  await walk.check(page, refused);
  await page.locator('#again-class').selectOption({ index: 1 });
  await page.locator('#again-point').selectOption({ index: 1 });
  await page.locator('#again-why').fill('Read in two ways.');
  await walk.check(page, await press(page, page.locator('#decide-again').getByRole('button')));
  walk.must(/marks given anew since/.test(await page.locator('main').innerText()), 'it is not marked again');
  await walk.shot(page, 'settled');
}

async function closes(walk, page, round) {
  await page.locator('[name=pending]').check();
  await walk.check(page, await press(page, button(page, 'Close the round')));
  walk.must(page.url() === `${round}/record`, `closing led to ${page.url()}`);
  await walk.shot(page, 'record');
  await page.locator('#entry').fill('Filed, and shown to the department.');
  await walk.check(page, await press(page, button(page, 'Add it to the record')));
  walk.must(/Filed, and shown/.test(await page.locator('main').innerText()), 'the entry is not there');
  for (const path of ['', '/settle', '/standard', '/sample']) {
    await walk.check(page, await page.goto(round + path));
  }
  await page.goto(`${round}/record`);
  const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
  mkdirSync('shots', { recursive: true });
  writeFileSync('shots/record.pdf', pdf);
}

const browser = await launch(base);
const wrong = [];
for (const [at, scripts] of [true, false].entries()) {
  const walk = new Walk(browser, base, scripts);
  const round = base + rounds[at];
  try {
    const page = await headSignsIn(walk);
    await walk.check(page, await page.goto(`${round}/settle`));
    await settlesAPoint(walk, page);
    await settlesTheRest(walk, page, round);
    await hasAClassMarkedAgain(walk, page);
    await closes(walk, page, round);
  } catch (error) {
    wrong.push(error.message);
  }
  wrong.push(...walk.findings);
}
await browser.close();
if (wrong.length > 0) {
  console.error(wrong.map((line) => `  - ${line}`).join('\n'));
  process.exit(1);
}
