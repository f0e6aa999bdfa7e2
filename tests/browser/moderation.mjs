// A moderation round in a real browser, as far as the standard: two markers
// mark the anchors blind, and one of them writes a ruling.
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
}
