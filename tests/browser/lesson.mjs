// A whole lesson: ten groups type at once, each in a browser of its own, while
// the room page is open; the teacher marks all of them and releases; each group
// reads its own slip and nobody else's. Once with scripts and once without.
import { asLabHost, launch } from './support.mjs';

const base = asLabHost(process.env.CRESTCOUNT_URL);
const labels = [...'ABCDEFGHIJ'];
const sheets = JSON.parse(process.env.SHEETS); // careful and forgetful, as boxes
const findings = [];
const check = (holds, what) => { if (!holds) { findings.push(what); } };

async function signIn(context) {
  const page = await context.newPage();
  await page.goto(`${base}/staff/sign-in`);
  await page.fill('[name=name]', process.env.CRESTCOUNT_STAFF);
  await page.fill('[name=password]', process.env.CRESTCOUNT_PASSWORD);
  await Promise.all([page.waitForURL('**/class-sets'), page.click('main button[type=submit]')]);
  return page;
}

async function makeClassSet(teacher) {
  await teacher.goto(`${base}/class-sets/new`);
  await teacher.fill('[name=class]', '10B/Ph2');
  await teacher.fill('[name=groups]', String(labels.length));
  const method = teacher.locator('select[name=method]');
  if (await method.count()) { await method.selectOption('ripple-tank'); } else { await teacher.check('[name=method][value=ripple-tank]'); }
  await Promise.all([teacher.waitForURL(/class-sets\/\d+$/), teacher.click('main button[type=submit]')]);
  const code = (await teacher.locator('.code-large').first().textContent()).trim();
  return { set: new URL(teacher.url()).pathname, code };
}

async function handIn(context, code, label, boxes) {
  const page = await context.newPage();
  await page.goto(`${base}/c/${code}`);
  await Promise.all([page.waitForLoadState(), page.click(`button[name=bench][value=${label}]`)]);
  await page.goto(`${base}/c/${code}/${label}`);
  for (const [name, text] of boxes) {
    const box = page.locator(`[name="${name}"]`);
    if ((await box.evaluate((e) => e.tagName)) === 'SELECT') { await box.selectOption(text); } else { await box.fill(text); }
  }
  await page.locator('button[value=hand_in]').first().click();
  await page.locator('#kept').waitFor();
  return page;
}

/** Awards what is suggested, and one mark for each point that is left. */
async function markSheet(teacher, set, label) {
  await teacher.goto(`${base}${set}/marking/sheets/${label}`);
  await Promise.all([teacher.waitForLoadState('load'), teacher.locator('[data-all] button').click()]);
  for (let left = 20; left > 0; left -= 1) {
    await teacher.goto(`${base}${set}/marking/sheets/${label}`);
    const open = teacher.locator('.points li.open').first();
    if (!(await open.count())) { return; }
    await Promise.all([teacher.waitForNavigation(), open.locator('.mark-choice[value="1"]').click()]);
  }
  findings.push(`${label}: points are still open`);
}

async function lesson(browser, scripts) {
  const contexts = [];
  const open = async () => {
    const context = await browser.newContext({ javaScriptEnabled: scripts });
    contexts.push(context);
    return context;
  };
  const staff = await open();
  const teacher = await signIn(staff);
  const { set, code } = await makeClassSet(teacher);
  const room = await staff.newPage();
  await room.goto(`${base}${set}/room`);
  const handedIn = () => room.locator('.tiles .handed-in').count();
  check((await handedIn()) === 0, 'the room shows hand-ins before there are any');

  const groups = await Promise.all(labels.map(async (label, at) =>
    handIn(await open(), code, label, sheets[at % 2])));
  if (scripts) {
    await room.waitForFunction((n) => document.querySelectorAll('.tiles .handed-in').length === n, labels.length, { timeout: 20000 })
      .catch(async () => findings.push(`the room page did not follow by itself: ${await handedIn()} of ${labels.length}`));
  } else {
    await room.reload();
    check((await handedIn()) === labels.length, `the room shows ${await handedIn()} of ${labels.length} hand-ins`);
  }
  check((await room.locator('.tiles .slip.shown').count()) >= labels.length / 2, 'the room names the slips of half of the groups');

  for (const label of labels) { await markSheet(teacher, set, label); }
  await groups[0].goto(`${base}/c/${code}/A/feedback`);
  check(!(await groups[0].content()).includes('Your marks'), 'a group reads marks before release');
  await teacher.goto(`${base}${set}/feedback`);
  check((await teacher.content()).includes(`${labels.length} of ${labels.length} sheets are marked on every point`), 'not every sheet is marked');
  await Promise.all([teacher.waitForNavigation(), teacher.click('button[name=release][value=out]')]);

  await Promise.all(groups.map(async (page, at) => {
    const [own, other] = [labels[at], labels[(at + 1) % labels.length]];
    await page.goto(`${base}/c/${code}/${own}/feedback`);
    const slip = await page.locator('article.feedback').innerText();
    check(slip.includes(`Bench ${own}:`) && slip.includes('of 20 marks'), `${own}: no slip of its own`);
    const forgot = slip.includes('enlargement');
    check(slip.includes('The first wrong turn') === (at % 2 === 1), `${own}: the wrong turn is not where it should be (${forgot})`);
    await page.goto(`${base}/c/${code}/${other}/feedback`);
    check(page.url().endsWith(`/${other}/come-back`), `${own} reads the slip of ${other}`);
  }));
  for (const context of contexts) { await context.close(); }
}

const browser = await launch(base);
for (const scripts of [true, false]) {
  try {
    await lesson(browser, scripts);
  } catch (error) {
    findings.push(`scripts ${scripts ? 'on' : 'off'}: ${error.stack}`);
  }
}
await browser.close();
if (findings.length) {
  console.log(findings.join('\n'));
  process.exitCode = 1;
}
