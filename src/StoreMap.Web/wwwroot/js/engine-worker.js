import { dotnet } from '../_framework/dotnet.js';

let current = 0;
const engine = (async () => {
  const { getAssemblyExports, setModuleImports } = await dotnet.create();
  setModuleImports('worker', { progress: (share, work) => self.postMessage({ id: current, share, work }) });
  return (await getAssemblyExports('StoreMap.Web.dll')).StoreMap.Web.Solving;
})();

self.onmessage = async ({ data: { id, method, args } }) => {
  try {
    const [type, name] = method.split('.');
    const work = (await engine)[type];
    current = id;
    self.postMessage({ id, result: work[name](...args) });
  } catch (e) {
    self.postMessage({ id, error: String(e?.message ?? e) });
  }
};
