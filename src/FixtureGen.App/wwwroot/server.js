// Every rule lives in the program; the page only asks. One request is under way at a time for tries: the newest waits, older ones are dropped.
const token = new URLSearchParams(location.search).get("token") ?? "";

export async function ask(path, body) {
  const response = await fetch(`api/${path}?token=${encodeURIComponent(token)}`, {
    method: body === undefined ? "GET" : "POST",
    headers: body === undefined ? {} : { "Content-Type": "application/json" },
    body: body === undefined ? undefined : JSON.stringify(body),
  });
  const answer = await response.json().catch(() => ({ message: response.statusText }));
  return { ok: response.ok, status: response.status, answer };
}

export const blockPicture = (magnetsKey) => `api/block.png?token=${encodeURIComponent(token)}&for=${encodeURIComponent(magnetsKey)}`;

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
    const result = await ask("try", body());
    done(result, asked);
  }
  running = false;
}
