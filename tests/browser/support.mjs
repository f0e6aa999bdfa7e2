// What every walk needs: a browser, checked pages, a list of findings.
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { FileSystemConfigLoader, HtmlValidate, esmResolver } from 'html-validate';
import { chromium } from 'playwright-core';

const here = dirname(fileURLToPath(import.meta.url));
const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const shots = join(here, 'shots');

/** A host name that is not localhost: browsers trust localhost more than a school's network. */
export const HOST = 'lab.test';

/** The rules of WCAG 2.2 AA and axe's own good practice. */
const AXE_TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

const FLAGS = [
  '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync',
  `--host-resolver-rules=MAP ${HOST} 127.0.0.1`,
];

/**
 * Debian's Chromium, without a window, for a server at `base`. CHROMIUM names another one.
 *
 * Chromium keeps a page that came from nowhere (the twin of a page without scripts) from
 * asking this machine for its style sheet; the override says that the server is outside.
 */
export async function launch(base) {
  const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
  if (!existsSync(executablePath)) {
    throw new Error(`no Chromium at ${executablePath}: install the package "chromium" or set CHROMIUM`);
  }
  const override = `--ip-address-space-overrides=127.0.0.1:${new URL(base).port || 80}=public`;
  return chromium.launch({ executablePath, args: [...FLAGS, override] });
}

/** The base address as the browser is to see it: the same port, under HOST. */
export function asLabHost(address) {
  const url = new URL(address);
  url.hostname = HOST;
  return url.origin;
}

/**
 * A walk's notebook: opens contexts, checks pages, keeps what was found.
 * One walk is made twice, with scripts and without.
 */
export class Walk {
  #validator = new HtmlValidate(new FileSystemConfigLoader([esmResolver()]));
  #seen = new Set();
  findings = [];
  pagesChecked = 0;

  constructor(browser, base, scripts) {
    this.browser = browser;
    this.base = base;
    this.scripts = scripts;
    this.name = scripts ? 'scripts on' : 'scripts off';
  }

  /** A person with a clean browser of their own. */
  async person(size = { width: 1280, height: 900 }) {
    const context = await this.browser.newContext({ javaScriptEnabled: this.scripts, viewport: size, locale: 'en-GB' });
    context.setDefaultTimeout(15_000);
    const page = await context.newPage();
    page.on('pageerror', (error) => this.note(page, 'script error', error.message));
    page.on('console', (message) => {
      if (/content security policy/i.test(message.text())) this.note(page, 'blocked by the policy', message.text());
    });
    page.on('request', (request) => {
      if (!request.url().startsWith(this.base)) this.note(page, 'asks another host', request.url());
    });
    return page;
  }

  note(page, what, detail) {
    const finding = `${this.name}: ${page.url()}: ${what}: ${detail}`;
    if (!this.#seen.has(finding)) this.findings.push(finding);
    this.#seen.add(finding);
  }

  /** Fails the walk here and now: what comes after would make no sense. */
  must(condition, sentence) {
    if (!condition) throw new Error(`${this.name}: ${sentence}`);
  }

  /**
   * Looks at the page that is open: accessibility, validity of the HTML as it
   * was sent, no sideways scrolling at 320 px. `response` is what brought the
   * page here: what `page.goto` or `press` gave back.
   */
  async check(page, response) {
    this.pagesChecked += 1;
    const html = await response.text();
    await this.#accessibility(page, html);
    await this.#validity(page, html);
    await this.#narrow(page);
  }

  async #accessibility(page, html) {
    const seen = this.scripts ? page : await this.#twin(page, html);
    // A script element would be blocked by the content security policy.
    await seen.evaluate(axeSource);
    const result = await seen.evaluate(
      (tags) => globalThis.axe.run(document, { runOnly: { type: 'tag', values: tags } }), AXE_TAGS);
    for (const violation of result.violations) {
      for (const node of violation.nodes) {
        this.note(page, `axe ${violation.id}`, `${violation.help} (${node.target.join(' ')})`);
      }
    }
    if (seen !== page) await seen.context().close();
  }

  /**
   * The same HTML in a context with scripts. axe-core waits on timers, and a
   * page without scripts has none: asked there, it would never answer.
   */
  async #twin(page, html) {
    const context = await this.browser.newContext({ viewport: page.viewportSize(), locale: 'en-GB' });
    const twin = await context.newPage();
    await twin.route(page.url(), (route) => route.request().isNavigationRequest()
      ? route.fulfill({ contentType: 'text/html; charset=utf-8', body: html })
      : route.continue());
    await twin.goto(page.url());
    return twin;
  }

  async #validity(page, html) {
    const report = await this.#validator.validateString(html, join(here, 'page.html'));
    for (const { messages } of report.results) {
      for (const m of messages) this.note(page, `html ${m.ruleId}`, `line ${m.line}: ${m.message}`);
    }
  }

  async #narrow(page) {
    const before = page.viewportSize();
    await page.setViewportSize({ width: 320, height: 640 });
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    if (width > 320) this.note(page, 'too wide', `${width} px at 320 px`);
    await page.setViewportSize(before);
  }

  /** A picture for people to look at, kept in shots/ (which Git ignores). */
  async shot(page, name) {
    mkdirSync(shots, { recursive: true });
    const suffix = this.scripts ? '' : '-no-scripts';
    await page.screenshot({ path: join(shots, `${name}${suffix}.png`), fullPage: true });
  }
}

/**
 * Presses something that leads to another page and gives back the response of
 * the page that arrived, for `check`.
 */
export async function press(page, locator) {
  const arrived = page.waitForResponse((response) =>
    response.request().isNavigationRequest() && ![301, 302, 303, 307, 308].includes(response.status()));
  await Promise.all([page.waitForEvent('load'), locator.click()]);
  return arrived;
}
