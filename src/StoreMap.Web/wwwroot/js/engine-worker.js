import { dotnet } from '../_framework/dotnet.js';

const engine = (async () => {
  const { getAssemblyExports } = await dotnet.create();
  return (await getAssemblyExports('StoreMap.Web.dll')).StoreMap.Web.Solving.EngineWork;
})();

self.onmessage = async ({ data: { id, method, layout, survey } }) => {
  try {
    self.postMessage({ id, result: (await engine)[method](layout, survey) });
  } catch (e) {
    self.postMessage({ id, error: String(e?.message ?? e) });
  }
};
