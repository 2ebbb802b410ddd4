// Hands work to the engine in workers of their own, so that neither logging nor drawing waits for an answer.
import { keep, recall } from './answers.js';

const workers = new Map();
let next = 0;

function start(name) {
  const made = { worker: new Worker('/js/engine-worker.js', { type: 'module' }), waiting: new Map() };
  made.worker.onmessage = ({ data }) => {
    const call = made.waiting.get(data.id);
    if (data.share !== undefined) { call?.progress?.(data.share, data.work); return; }
    made.waiting.delete(data.id);
    if (data.error) call?.no(new Error(data.error)); else call?.ok(data.result);
  };
  made.worker.onerror = () => end(name, 'The engine could not be started in the background.');
  workers.set(name, made);
  return made;
}

function end(name, why) {
  const ended = workers.get(name);
  if (!ended) return;
  workers.delete(name);
  ended.worker.terminate();
  for (const call of ended.waiting.values()) call.no(new Error(why));
}

// Begins to start it, for what is asked of it soon.
export function warm(name) {
  if (!workers.has(name)) start(name);
}

// A method of the engine's work, such as "EngineWork.Locate"; arguments and answer are texts.
export function run(name, method, args, progress) {
  const { worker, waiting } = workers.get(name) ?? start(name);
  const id = ++next;
  return new Promise((ok, no) => {
    waiting.set(id, { ok, no, progress });
    worker.postMessage({ id, method, args });
  });
}

// The work at hand is dropped with its worker; the next call starts a new one.
export function cancel(name) {
  end(name, 'cancelled');
}

// All work at hand is dropped.
export function cancelAll() {
  for (const name of [...workers.keys()]) cancel(name);
}

export const keptOf = (version, method, args) => recall('answers', [version, method, ...args]);

const pending = new Map();

// A question that is being answered is not asked again: whoever asks it too waits for the same answer.
export async function runOnce(name, version, method, args, progress) {
  const kept = await keptOf(version, method, args);
  if (kept) return kept;
  const question = [version, method, ...args];
  const key = JSON.stringify([name, ...question]);
  const asked = pending.get(key) ?? ask(key, name, question);
  asked.heard.push(progress);
  return asked.answer;
}

function ask(key, name, question) {
  const [, method, ...args] = question;
  const heard = [];
  const answer = run(name, method, args, (share, work) => heard.forEach(hear => hear(share, work)))
    .then(text => { keep('answers', question, text); return text; })
    .finally(() => pending.delete(key));
  const asked = { heard, answer };
  pending.set(key, asked);
  return asked;
}
