import { dotnet } from '../_framework/dotnet.js';
import { keep, recall } from './answers.js';

let current = 0;
let last = Promise.resolve();
const engine = (async () => {
  const { getAssemblyExports, setModuleImports } = await dotnet.create();
  setModuleImports('worker', { progress: (share, work) => self.postMessage({ id: current, share, work }), recall, keep });
  return (await getAssemblyExports('StoreMap.Web.dll')).StoreMap.Web.Solving;
})();

async function answer({ id, method, args }) {
  try {
    const [type, name] = method.split('.');
    const work = (await engine)[type];
    current = id;
    self.postMessage({ id, result: await work[name](...args) });
  } catch (e) {
    self.postMessage({ id, error: String(e?.message ?? e) });
  }
}

// One question after another, also where an answer waits for what is kept.
self.onmessage = ({ data }) => { last = last.then(() => answer(data)); };
