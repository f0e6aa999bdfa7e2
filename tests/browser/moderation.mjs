// Moderation rounds in a real browser. The first goes as far as the standard:
// two markers mark the anchors blind, and one of them writes a ruling. In the
// second a sheet is marked twice, and the two markings are compared.
import { press } from './support.mjs';

const button = (page, name) => page.getByRole('button', { name });

/** A colleague with an account of their own. */
async function colleagueJoins(walk, head) {
  await head.goto(`${walk.base}/staff`);
  await walk.check(head, await press(head, button(head, /link/i)));
  const link = new URL(await head.locator('code').innerText());
  const page = await walk.person();
  await page.goto(`${walk.base}${link.pathname}`);
  await page.locator('[name="name"]').fill(`Mrs Gill, ${walk.name}`);
  for (const name of ['password', 'again']) await page.locator(`[name="${name}"]`).fill('pond ripple lamp');
  await press(page, page.locator('main button[type="submit"]'));
  return page;
}

/** Gives back the address of a round that has begun, with the class set's two sheets for anchors. */
async function headBeginsARound(walk, page, classSet) {
  await walk.check(page, await page.goto(`${walk.base}/moderation/new`));
  const schemes = page.locator('main li a', { hasText: /ripple/i });
  await walk.check(page, await press(page, schemes.first()));
  const refused = await press(page, button(page, 'Make the round'));
  walk.must(refused.status() === 422, `a round without a name was answered with ${refused.status()}`);
  await walk.check(page, refused);
  await page.locator('[name="name"]').fill('Autumn');
  await page.locator(`[name="class_set.${classSet}"]`).check();
  await walk.check(page, await press(page, button(page, 'Make the round')));
  const round = page.url();
  await walk.check(page, await page.goto(`${round}/anchors`));
  for (const label of ['A', 'B']) await page.locator(`[name="sheet.${classSet}/${label}"]`).check();
  await walk.shot(page, 'anchors');
  await walk.check(page, await press(page, page.locator('main form button')));
  return round;
}

/** Marks two points of the first sheet, the second with a key where there are scripts. */
async function marksBlind(walk, page, round) {
  await page.goto(round);
  await walk.check(page, await press(page, page.locator('#own ~ table a').first()));
  await walk.check(page, await press(page, page.locator('#point-3 .mark-choice').first()));
  walk.must(page.url().endsWith('#point-4'), `a mark led to ${page.url()}`);
  if (walk.scripts) {
    const arrived = page.waitForEvent('load');
    await page.keyboard.press('1');
    await arrived;
  } else {
    await press(page, page.locator('#point-4 .mark-choice').last());
  }
  walk.must(/^2 of/.test(await page.locator('.lead').innerText()), 'the marks were not kept');
  await walk.shot(page, 'marked-blind');
}

/** The whole of it; `head` is signed in as a head of department. */
export async function departmentAgreesAStandard(walk, head, classSet) {
  const colleague = await colleagueJoins(walk, head);
  const round = await headBeginsARound(walk, head, classSet);
  await marksBlind(walk, colleague, round);
  const closed = await colleague.goto(`${walk.base}/class-sets/${classSet}/summary`);
  walk.must(closed.status() === 403, `first marks were answered with ${closed.status()}`);
  await walk.check(colleague, closed);

  await head.goto(round);
  await head.locator('summary', { hasText: 'before all have finished' }).click();
  await walk.check(head, await press(head, button(head, 'Show the marks now')));
  await walk.shot(head, 'standard');
  await head.locator('summary', { hasText: /point/ }).click();
  await head.locator('[name="ruling"]').first().fill('A unit in the heading counts.');
  await walk.check(head, await press(head, button(head, 'Keep the ruling').first()));
  walk.must(/written by/.test(await head.locator('main').innerText()), 'the ruling is not there');
  await walk.check(head, await head.goto(`${round}/sample`));
  return colleague;
}

/** Awards what is suggested, and one mark for each point that is left. */
async function marksFirst(walk, page, classSet, label) {
  const sheet = `${walk.base}/class-sets/${classSet}/marking/sheets/${label}`;
  await page.goto(sheet);
  await press(page, page.locator('[data-all] button'));
  for (;;) {
    await page.goto(sheet);
    const open = page.locator('.points li.open .mark-choice[value="1"]').first();
    if (await open.count() === 0) return;
    await press(page, open);
  }
}

/** All marks on every point but the first, which gets none. */
async function marksAgain(page, sheet) {
  await page.goto(sheet);
  const points = await page.locator('[data-point]').count();
  for (let point = 1; point <= points; point += 1) {
    const choices = page.locator(`#point-${point} .mark-choice`);
    await press(page, point === 1 ? choices.first() : choices.last());
  }
}

/** The comparison as the head of department sees it, and the marker. */
export async function departmentComparesASample(walk, head, colleague, classSet) {
  await marksFirst(walk, head, classSet, 'A');
  await head.goto(`${walk.base}/moderation/new`);
  await press(head, head.locator('main li a', { hasText: /ripple/i }).first());
  await head.locator('[name="name"]').fill('Spring');
  for (const box of await head.locator('[name^="marker."]').all()) await box.uncheck();
  await head.getByLabel(`Mrs Gill, ${walk.name}`).check();
  await head.locator(`[name="class_set.${classSet}"]`).check();
  await press(head, button(head, 'Make the round'));
  const round = head.url();
  await head.goto(`${round}/sample`);
  await press(head, button(head, 'Draw this sample'));
  await colleague.goto(round);
  await marksAgain(colleague, await colleague.locator('#own ~ table a').evaluate((link) => link.href));
  const blind = await head.goto(`${round}/comparison`);
  walk.must(blind.status() === 404, `a blind comparison was answered with ${blind.status()}`);
  await head.goto(round);
  await press(head, button(head, 'Show everyone’s marks'));
  for (const page of [head, colleague]) {
    await page.goto(round);
    await walk.check(page, await press(page, page.getByRole('link', { name: 'The comparison' })));
    walk.must(/too few to call a difference/.test(await page.locator('.lead').innerText()), 'one sheet is not said to be too few');
    walk.must(await page.locator('.graph .cross').count() === 1, 'the sheet is not in the plot');
  }
  await walk.shot(head, 'comparison');
}
