// Hands work to the engine in a worker of its own, so that logging never waits for an answer.
let worker = null;
let next = 0;
const waiting = new Map();

function start() {
  worker = new Worker('js/engine-worker.js', { type: 'module' });
  worker.onmessage = ({ data }) => {
    const call = waiting.get(data.id);
    waiting.delete(data.id);
    if (data.error) call?.no(new Error(data.error)); else call?.ok(data.result);
  };
  worker.onerror = () => {
    for (const call of waiting.values()) call.no(new Error('The engine could not be started in the background.'));
    waiting.clear();
    worker = null;
  };
}

export function solve(method, layout, survey) {
  if (!worker) start();
  const id = ++next;
  return new Promise((ok, no) => {
    waiting.set(id, { ok, no });
    worker.postMessage({ id, method, layout, survey });
  });
}
