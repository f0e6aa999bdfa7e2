// The main job in a real browser: a pupil hands in a sheet with a slip in it,
// and the teacher sees it. Made once with scripts and once without.
//
// Needs a server that is running:
//   CRESTCOUNT_URL       its address, for instance http://127.0.0.1:8080
//   CRESTCOUNT_STAFF     a staff sign-in name
//   CRESTCOUNT_PASSWORD  and its password
import { departmentAgreesAStandard, departmentComparesASample } from './moderation.mjs';
import * as room from './room.mjs';
import { Walk, asLabHost, launch, press } from './support.mjs';

function setting(name) {
  const value = process.env[name];
  if (!value) throw new Error(`set ${name} (see README.md)`);
  return value;
}

/** Fills boxes by the names of the readings format, a sheet's own or a row's. */
async function type(page, figures) {
  for (const [name, text] of Object.entries(figures)) {
    const box = page.locator(`[name="${name}"]`);
    if (await box.evaluate((element) => element.tagName) === 'SELECT') await box.selectOption(text);
    else await box.fill(text);
  }
}

const button = (page, name) => page.getByRole('button', { name });

async function teacherSignsIn(walk) {
  const page = await walk.person();
  await walk.check(page, await page.goto(`${walk.base}/staff/sign-in`));
  await type(page, { name: setting('CRESTCOUNT_STAFF'), password: setting('CRESTCOUNT_PASSWORD') });
  await walk.check(page, await press(page, button(page, 'Sign in')));
  walk.must(new URL(page.url()).pathname === '/class-sets', `signing in led to ${page.url()}`);
  await walk.shot(page, 'class-sets');
  return page;
}

/** Gives back where the new class set is and its join code. */
async function teacherMakesClassSet(walk, page) {
  await walk.check(page, await page.goto(`${walk.base}/class-sets/new`));
  await type(page, { class: '10Y/Ph2', method: 'ripple-tank', date: '2026-11-12', groups: '4' });
  await walk.check(page, await press(page, button(page, 'Make the class set')));
  const id = /^\/class-sets\/([^/]+)/.exec(new URL(page.url()).pathname)?.[1];
  walk.must(id && id !== 'new', `making a class set led to ${page.url()}`);
  const code = (await page.locator('.code-large').first().innerText()).replaceAll(/\s/g, '');
  walk.must(/^[A-Z]{5}$/.test(code), `the join code is ${code}`);
  await walk.shot(page, 'class-set');
  return { id, code };
}

// Clean water 5 mm deep, seen 1.75 times as large: ten waves at 10 to 40 Hz, in
// row 3 five; but its far line was called six.
const MISCOUNTED = {
  'w.scale_image': '17.5', 'unit.scale_image': 'cm', 'w.scale_true': '10.0', 'unit.scale_true': 'cm', 'w.depth_mm': '5',
  'unit.span': 'cm', shared: 'the set on the board',
  'r1.dial': '10', 'r1.first_crest': '0', 'r1.last_crest': '10', 'r1.span': '38.9',
  'r2.dial': '20', 'r2.first_crest': '0', 'r2.last_crest': '10', 'r2.span': '20.8',
  'r3.dial': '30', 'r3.first_crest': '0', 'r3.last_crest': '6', 'r3.span': '7.6',
  'r4.dial': '40', 'r4.first_crest': '0', 'r4.last_crest': '10', 'r4.span': '12.1',
  'r5.dial': '15', 'r5.first_crest': '0', 'r5.last_crest': '10', 'r5.span': '27.3',
};

/** Bench B hands in a sheet whose working shows nothing. */
async function pupilMiscounts(walk, code) {
  const page = await walk.person({ width: 820, height: 1100 });
  await page.goto(`${walk.base}/c/${code}`);
  await press(page, button(page, /^B\b|Bench B/));
  await press(page, page.getByRole('link', { name: 'Go to your sheet' }));
  await type(page, MISCOUNTED);
  await walk.check(page, await press(page, button(page, 'Hand in')));
  walk.must(!/inferred|suggest/i.test(await page.locator('main').innerText()), 'a pupil is told what was inferred');
}

/** Ends on the bench sheet of bench A, not begun. */
async function pupilJoins(walk, code) {
  const page = await walk.person({ width: 820, height: 1100 });
  await walk.check(page, await page.goto(`${walk.base}/`));
  await walk.shot(page, 'front');
  await type(page, { code: code.toLowerCase() });
  await walk.check(page, await press(page, button(page, 'Join')));
  walk.must(new URL(page.url()).pathname === `/c/${code}`, `the code led to ${page.url()}`);
  await walk.shot(page, 'benches');
  await walk.check(page, await press(page, button(page, /^A\b|Bench A/)));
  await walk.shot(page, 'come-back-number');
  await walk.check(page, await press(page, page.getByRole('link', { name: 'Go to your sheet' })));
  walk.must(new URL(page.url()).pathname === `/c/${code}/A`, `choosing a bench led to ${page.url()}`);
  await walk.shot(page, 'bench-sheet');
  return page;
}

// Picture 14.0 cm of an 8.0 cm object: enlarged 1.75 times. Row 1: 22.4 cm for
// 8 crests is 2.80 cm in the picture and 1.60 cm on the water; the group forgot
// the second step, so its wavelength is 2.80 cm and its speed 28.0 cm/s.
const SHEET = {
  'w.scale_image': '14.0', 'unit.scale_image': 'cm', 'w.scale_true': '8.0', 'unit.scale_true': 'cm',
  'w.magnification': '1.75',
  'r1.dial': '10', 'r1.first_crest': '0', 'r1.last_crest': '8', 'r1.span': '22.4', 'unit.span': 'cm',
  'r1.frequency': '10', 'r1.wavelength': '2.80', 'unit.wavelength': 'cm',
  'r1.speed': '28.0', 'unit.speed': 'cm/s',
};

/** Presses a button that readies a row; typing goes on in this box. */
async function pupilReadiesARow(walk, page, pressed, box) {
  await walk.check(page, await press(page, pressed));
  await walk.shot(page, `row-ready-${box}`);
  const focused = await page.evaluate(() => document.activeElement?.getAttribute('name'));
  walk.must(focused === box, `a row was readied, and typing goes on in ${focused}`);
}

async function pupilHandsIn(walk, page) {
  await type(page, { ...SHEET, 'r1.span': '2O.4 or so' });
  await pupilReadiesARow(walk, page, button(page, 'Measure again').first(), 'r2.first_crest');
  await pupilReadiesARow(walk, page, button(page, 'Add two rows'), 'r6.dial');
  await type(page, { 'r2.dial': '' });
  const refused = await press(page, button(page, 'Hand in'));
  walk.must(refused.status() === 422, `a wrong entry was answered with ${refused.status()}`);
  await walk.check(page, refused);
  await walk.shot(page, 'bench-sheet-wrong-entry');
  walk.must(await page.locator('[name="r1.span"]').inputValue() === '2O.4 or so', 'the wrong entry is not there as typed');
  walk.must(await page.locator('[name="r1.wavelength"]').inputValue() === '2.80', 'the other entries were lost');
  await page.locator('.error-summary a').first().click();
  const focused = await page.evaluate(() => document.activeElement?.getAttribute('name'));
  walk.must(focused === 'r1.span', `the error list leads to ${focused}`);

  await type(page, { 'r1.span': '22.4' });
  const kept = await press(page, button(page, 'Hand in'));
  walk.must(kept.status() === 200, `handing in was answered with ${kept.status()}`);
  await walk.check(page, kept);
  await walk.shot(page, 'handed-in');
  walk.must(await page.locator('.kept').count() === 1, 'no receipt after handing in');
}

async function teacherSeesTheSlip(walk, page, id) {
  await walk.check(page, await page.goto(`${walk.base}/class-sets/${id}/summary`));
  await walk.shot(page, 'summary');
  walk.must(await page.locator('.slip.shown').count() > 0, 'the summary shows no slip');
  await walk.check(page, await page.goto(`${walk.base}/class-sets/${id}/sheets/A`));
  await walk.shot(page, 'sheet');
  walk.must(/enlarge/i.test(await page.locator('.slip.shown').first().innerText()), 'the sheet does not name the enlargement');
}

/** A finding, an open mark beside it, and a word on it; first the thresholds. */
async function teacherSeesWhatTheReadingsSuggest(walk, page, id) {
  const set = `/class-sets/${id}`;
  await page.goto(`${walk.base}${set}`);
  await type(page, { bench: '40' });
  const refused = await press(page, button(page, 'Set both'));
  walk.must(refused.status() === 422, `a wrong threshold was answered with ${refused.status()}`);
  await walk.check(page, refused);
  await walk.shot(page, 'thresholds-wrong-entry');
  await type(page, { bench: '50' });
  await walk.check(page, await press(page, button(page, 'Set both')));

  await walk.check(page, await page.goto(`${walk.base}${set}/summary`));
  await walk.shot(page, 'summary-suggested');
  const inferred = page.locator('#visits ~ .tiles .slip.inferred');
  walk.must(await inferred.count() === 1, 'no bench is worth a visit');
  const inside = await inferred.evaluate((slip) => parseFloat(getComputedStyle(slip, '::before').width));
  walk.must(inside > 0, 'the mark of what is inferred is not open');
  await walk.check(page, await page.goto(`${walk.base}${set}/sheets/B`));
  await walk.shot(page, 'sheet-suggested');
  const finding = page.locator('#suggested-0');
  walk.must(/Row 3/i.test(await finding.innerText()), 'the sheet does not name row 3');
  await walk.check(page, await press(page, finding.getByRole('button', { name: /^Dismiss/ })));
  walk.must(await finding.locator('.field-error').count() === 1, 'a dismissal without a reason was not refused');
  await type(finding, { reason: 'We counted it together.' });
  await walk.check(page, await press(page, finding.getByRole('button', { name: /^Dismiss/ })));
  await walk.check(page, await page.goto(`${walk.base}${set}/summary`));
  walk.must(await page.locator('#visits').count() === 0, 'a dismissed finding is still worth a visit');
}

/** The pages that the main job leaves aside: each is looked at once. */
async function teacherLooksRound(walk, page, id) {
  const set = `/class-sets/${id}`;
  const paths = ['/privacy', '/about', '/kits', '/staff', '/moderation', '/moderation/new', '/moderation/sizes', '/class-sets', set, `${set}/benches/A/new-number`,
    `${set}/sheets/A/versions/1`, `${set}/sheets/B`, '/no-such-page'];
  for (const path of paths) await walk.check(page, await page.goto(`${walk.base}${path}`));
  await page.goto(`${walk.base}${set}/sheets/A`);
  await walk.check(page, await press(page, button(page, /^Dismiss/)));
  walk.must(await page.locator('.field-error').count() === 1, 'a dismissal without a reason was not refused');
  await page.goto(`${walk.base}${set}/sheets/A`);
  await walk.check(page, await press(page, button(page, /^Confirm/)));
  walk.must(/Confirmed/.test(await page.locator('#slips ~ .slips, .slips').first().innerText()), 'no word of the confirmation');
}

/** Two tabs: the second is shown both versions. */
async function pupilMeetsAnotherVersion(walk, page, code) {
  const other = await page.context().newPage();
  await other.goto(`${walk.base}/c/${code}/A`);
  await type(page, { 'r1.span': '22.6' });
  await press(page, button(page, 'Save without handing in'));
  await type(other, { 'r1.span': '22.2' });
  const asked = await press(other, button(other, 'Hand in'));
  walk.must(asked.status() === 409, `a stale sheet was answered with ${asked.status()}`);
  await walk.check(other, asked);
  await walk.shot(other, 'two-versions');
  await other.close();
}

/** The teacher switches it on; the pupil is pointed to the wavelength and back to its box. */
async function pupilLooksAgain(walk, teacher, page, id) {
  await teacher.goto(`${walk.base}/class-sets/${id}`);
  await teacher.getByLabel(/^Explain the step/).check();
  await walk.check(teacher, await press(teacher, button(teacher, 'Keep these settings')));
  await page.reload();
  await type(page, { 'words.method': 'We counted.\nThen we measured.' });
  await walk.check(page, await press(page, button(page, 'Save and look again')));
  await walk.shot(page, 'look-again');
  const said = await page.locator('main').innerText();
  walk.must(/Look again at your wavelength/.test(said), 'nothing says that the wavelength is to be looked at');
  walk.must(!/1\.60/.test(said), 'a pupil is told the answer');
  await press(page, page.getByRole('link', { name: /^Go to/ }).first());
  walk.must(page.url().endsWith('#r1.wavelength'), `the link to the box leads to ${page.url()}`);
}

async function mainJob(walk) {
  const teacher = await teacherSignsIn(walk);
  const { id, code } = await teacherMakesClassSet(walk, teacher);
  const live = await room.teacherOpensTheRoom(walk, teacher, id);
  const pupil = await pupilJoins(walk, code);
  await pupilHandsIn(walk, pupil);
  await room.roomShowsAHandIn(walk, live);
  await room.teacherTicksABench(walk, live);
  await room.teacherSaysWhenMeasuringStops(walk, live);
  await teacherSeesTheSlip(walk, teacher, id);
  await pupilMiscounts(walk, code);
  await teacherSeesWhatTheReadingsSuggest(walk, teacher, id);
  await teacherLooksRound(walk, teacher, id);
  await pupilLooksAgain(walk, teacher, pupil, id);
  await pupilMeetsAnotherVersion(walk, pupil, code);
  await room.teacherSwitchesItOff(walk, teacher, live, id);
  const colleague = await departmentAgreesAStandard(walk, teacher, id);
  // Its pages have no scripts, and marking a sheet twice takes its time.
  if (walk.scripts) await departmentComparesASample(walk, teacher, colleague, id);
}

const base = asLabHost(setting('CRESTCOUNT_URL'));
const browser = await launch(base);
const wrong = [];
try {
  for (const scripts of [true, false]) {
    const walk = new Walk(browser, base, scripts);
    await mainJob(walk).catch((error) => wrong.push(error.message));
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
