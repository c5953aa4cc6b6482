// Every rule lives in the program; the page only asks. One request is under way at a time for tries: the newest waits, older ones are dropped.
const token = new URLSearchParams(location.search).get("token") ?? "";
const PULSE_PATIENCE_MS = 6000;

/** The job that questions are about; empty for the one that the page opened with. */
export const current = { job: "" };

export const address = (path, query = {}) => {
  const all = new URLSearchParams({ token, job: current.job, ...query });
  return `api/${path}?${all}`;
};

/** Since when the program has not answered; null while it does. */
let lostSince = null;
const watchers = [];
/** Called with the time since when the program has not answered, null when it answers again, "stranger" when another run sits at the address. */
export const whenLost = (watcher) => watchers.push(watcher);
export const isLost = () => lostSince !== null;

function heard(answers) {
  if (answers === (lostSince === null)) return;
  lostSince = answers ? null : new Date();
  for (const watch of watchers) watch(lostSince);
}

/**
 * An answer always comes: status 0 is a program that did not answer.
 * @param {string} path
 * @param {any} [body]
 * @param {{ query?: Record<string, any>, signal?: AbortSignal, raw?: boolean }} how
 * @returns {Promise<{ ok: boolean, status: number, answer: any }>}
 */
export async function ask(path, body, { query, signal, raw } = {}) {
  let response;
  try {
    response = await fetch(address(path, query), {
      method: body === undefined ? "GET" : "POST",
      headers: body === undefined ? {} : { "Content-Type": raw ? "application/octet-stream" : "application/json" },
      body: body === undefined ? undefined : raw ? body : JSON.stringify(body),
      signal,
    });
  } catch {
    heard(false);
    return { ok: false, status: 0, answer: { message: "The program does not answer: nothing was done." } };
  }
  heard(true);
  const answer = await response.json().catch(() => ({ message: response.statusText }));
  if (response.status === 403) for (const watch of watchers) watch("stranger");
  return { ok: response.ok, status: response.status, answer };
}

/** A short question whose answer must come soon: one that does not counts as a program that does not answer. */
export const soon = (path) => ask(path, undefined, { signal: /** @type {any} */ (AbortSignal).timeout(PULSE_PATIENCE_MS) });

let running = false;
let waiting = null;

/** Body is made when the question is sent, so that it is the newest; done gets the result and when it was asked. */
export function tryLayout(body, done) {
  waiting = { body, done };
  if (!running) next();
}

async function next() {
  running = true;
  while (waiting) {
    const { body, done } = waiting;
    waiting = null;
    const asked = performance.now();
    done(await ask("try", body()), asked);
  }
  running = false;
}
