// The live pages of a lesson, open beside everything else that the walk does.
import { press } from './support.mjs';

const button = (page, name) => page.getByRole('button', { name });

/** Waits until a tile says something; without scripts somebody asks for the page again. */
async function tileSays(walk, page, label, words) {
  if (!walk.scripts) await press(page, page.locator('#refresh'));
  const tile = page.locator(`#bench-${label}`, { hasText: words });
  await tile.waitFor({ timeout: 10_000 }).catch(() => walk.must(false, `the tile of bench ${label} does not say ${words}`));
}

/** The room page and the projector's view, each in a tab of its own that stays open. */
export async function teacherOpensTheRoom(walk, teacher, id) {
  const room = await teacher.context().newPage();
  await walk.check(room, await room.goto(`${walk.base}/class-sets/${id}/room`));
  const wall = await teacher.context().newPage();
  await walk.check(wall, await wall.goto(`${walk.base}/class-sets/${id}/room/wall`));
  // A tab in the background sleeps, as its stream does.
  await room.bringToFront();
  return { room, wall };
}

/** Bench A has handed in: it is said, in its place, and nothing that is being typed is touched. */
export async function roomShowsAHandIn(walk, { room, wall }) {
  await tileSays(walk, room, 'A', /Handed in/);
  await walk.shot(room, 'room');
  if (walk.scripts) {
    const said = await room.locator('#said').innerText();
    walk.must(said === 'Bench A handed in.', `a screen reader is told: ${said}`);
  }
  await wall.bringToFront();
  await tileSays(walk, wall, 'A', /handed in/);
  walk.must(!/enlarge|slip/i.test(await wall.locator('#live').innerText()), 'the projector names a slip');
  await walk.shot(wall, 'room-wall');
  await room.bringToFront();
}

/** With scripts the page stays where it is, and the focus too. */
export async function teacherTicksABench(walk, { room }) {
  const tick = button(room, 'Tick as seen: bench A');
  if (walk.scripts) {
    await tick.focus();
    await room.keyboard.press('Enter');
    await tileSays(walk, room, 'A', /Seen at/);
    const focused = await room.evaluate(() => document.activeElement?.getAttribute('aria-label'));
    walk.must(focused === 'Take the tick off: bench A', `after a tick the focus is at ${focused}`);
    walk.must(!room.url().includes('#'), `a tick led to ${room.url()}`);
  } else {
    await walk.check(room, await press(room, tick));
    walk.must(room.url().endsWith('#bench-A'), `a tick led to ${room.url()}`);
    await tileSays(walk, room, 'A', /Seen at/);
  }
}

export async function teacherSaysWhenMeasuringStops(walk, { room, wall }) {
  await room.locator('#until').fill('half past');
  const refused = await press(room, button(room, 'Set the time'));
  walk.must(refused.status() === 422, `a time that is none was answered with ${refused.status()}`);
  await walk.check(room, refused);
  walk.must(await room.locator('#until').inputValue() === 'half past', 'what was typed is lost');
  await room.locator('#until').fill('23:59');
  await walk.check(room, await press(room, button(room, 'Set the time')));
  walk.must(/minutes? left, until 23:59/.test(await room.locator('#now').innerText()), 'nobody says how long there is');
  await wall.bringToFront();
  if (!walk.scripts) await press(wall, wall.locator('#refresh'));
  await wall.locator('#now', { hasText: 'until 23:59' }).waitFor();
  await room.bringToFront();
}

/** Switched off, an open page gives way to the one that says why. */
export async function teacherSwitchesItOff(walk, teacher, { room, wall }, id) {
  for (const live of ['Off', /^On/]) {
    await teacher.bringToFront();
    await teacher.goto(`${walk.base}/class-sets/${id}`);
    await teacher.getByLabel(live, { exact: true }).check();
    await press(teacher, button(teacher, 'Keep these settings'));
    if (live !== 'Off') continue;
    await room.bringToFront();
    if (!walk.scripts) await press(room, room.locator('#refresh'));
    await room.getByRole('heading', { name: 'The live pages are off for this class set' }).waitFor();
    await walk.check(room, await room.reload());
  }
  await room.close();
  await wall.close();
}
