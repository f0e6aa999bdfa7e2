// Every page of the year, for the head of department: looked at once with
// scripts and once without. The department is the test's own.
import { Walk, launch, asLabHost, press } from './support.mjs';

const base = asLabHost(process.env.CRESTCOUNT_URL);

async function signIn(walk) {
  const page = await walk.person();
  await page.goto(`${walk.base}/staff/sign-in`);
  await page.fill('[name=name]', process.env.CRESTCOUNT_STAFF);
  await page.fill('[name=password]', process.env.CRESTCOUNT_PASSWORD);
  await press(page, page.getByRole('button', { name: 'Sign in' }));
  return page;
}

/** From the sentence on the first page to the sheets that it rests on. */
async function followAKit(walk, page) {
  await walk.check(page, await page.goto(`${walk.base}/year`));
  await walk.shot(page, 'year');
  await walk.check(page, await press(page, page.locator('dl.facts').getByRole('link', { name: 'Kits' })));
  await walk.shot(page, 'year-kits');
  const off = page.getByRole('link', { name: /reads .* high .*: check/ }).first();
  await walk.check(page, await press(page, off));
  await walk.shot(page, 'year-kit');
  walk.must(await page.locator('svg path.cross').count() > 3, 'the graph of a kit shows no sheets');
  const drawn = await page.locator('svg path.cross, svg circle.left-out').count();
  await page.locator('summary', { hasText: 'The sheets as a table' }).click();
  const rows = await page.getByRole('region', { name: 'The sheets as a table' }).locator('tbody tr').count();
  walk.must(rows === drawn, `the graph has ${drawn} marks and its table ${rows} lines`);
  await walk.check(page, await press(page, page.getByRole('link', { name: 'All its sheets' })));
  const sheet = page.getByRole('link', { name: /^Sheet of group/ }).first();
  await press(page, sheet);
  walk.must(/\/class-sets\/\d+\/sheets\/\w+$/.test(new URL(page.url()).pathname), `a sheet led to ${page.url()}`);
}

async function followASlip(walk, page) {
  await walk.check(page, await page.goto(`${walk.base}/year/slips`));
  await walk.shot(page, 'year-slips');
  await walk.check(page, await press(page, page.locator('a.slip').first()));
  await page.fill('[name=from]', '2027-01-15');
  await walk.check(page, await press(page, page.getByRole('button', { name: 'Compare' })));
  await walk.shot(page, 'year-slip');
  walk.must(/15 January 2027/.test(await page.locator('main').innerText()), 'nothing is said of before and after');
}

async function lookAtTheOthers(walk, page) {
  const others = ['classes', 'classes/1', 'teachers', 'sheets', 'sheets?slip=working.scale-left-out', 'kits?year=2024'];
  for (const path of others) {
    await walk.check(page, await page.goto(`${walk.base}/year/${path}`));
    await walk.shot(page, `year-${path.replaceAll(/\W/g, '-')}`);
  }
}

const browser = await launch(base);
const wrong = [];
try {
  for (const scripts of [true, false]) {
    const walk = new Walk(browser, base, scripts);
    const walked = async () => {
      const page = await signIn(walk);
      await followAKit(walk, page);
      await followASlip(walk, page);
      await lookAtTheOthers(walk, page);
    };
    await walked().catch((error) => wrong.push(error.message));
    wrong.push(...walk.findings);
    console.log(`${walk.name}: ${walk.pagesChecked} pages checked, ${walk.findings.length} findings`);
  }
} finally {
  await browser.close();
}
if (wrong.length > 0) {
  console.error(wrong.map((line) => `  - ${line}`).join('\n'));
  process.exit(1);
}
