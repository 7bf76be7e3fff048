/**
 * The layers of the house. Data flows one way, and so do imports: a folder of core may import itself and the
 * folders before it in this list, never one after it.
 */
export const layers = [
  "units",
  "project",
  "plan",
  "surface",
  "mesh",
  "shell",
  "layup",
  "cloth",
  "packing",
  "cutting",
  "sheets",
  "cli",
];

/** Geometry on any field: these do not know that a project file exists. */
const projectFree = ["surface", "mesh"];

/** What belongs to the window and may not reach core. */
const windowPackages = "^(three|react|react-dom|@react-three/.+|zustand|electron|electron-builder)$";

/** @param {readonly string[]} folders */
const inCore = (folders) => `^core/(${folders.join("|")})/`;

/** @type {import("dependency-cruiser").IForbiddenRuleType[]} */
const upward = layers.slice(0, -1).map((folder, place) => ({
  name: `core/${folder} imports only what stands before it`,
  severity: "error",
  from: { path: inCore([folder]) },
  to: { path: inCore(layers.slice(place + 1)) },
}));

/** @type {import("dependency-cruiser").IConfiguration} */
export default {
  forbidden: [
    ...upward,
    {
      name: "surface and mesh work on any field and do not import project",
      severity: "error",
      from: { path: inCore(projectFree) },
      to: { path: inCore(["project"]) },
    },
    {
      name: "packing works on any flat pieces and imports no other folder of core",
      severity: "error",
      from: { path: inCore(["packing"]) },
      to: { path: "^core/", pathNot: inCore(["packing"]) },
    },
    {
      name: "core knows nothing of the window, the desktop or the tests",
      severity: "error",
      from: { path: "^core/" },
      to: { path: "^(renderer|electron|tests)/" },
    },
    {
      name: "only core/cli touches Node",
      severity: "error",
      from: { path: "^core/", pathNot: "^core/cli/" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "core takes nothing from the window's packages",
      severity: "error",
      from: { path: "^core/" },
      to: { path: [windowPackages, "node_modules/(three|react|react-dom|@react-three|zustand|electron)/"] },
    },
    {
      name: "core runs on packages that are shipped, not on development ones",
      severity: "error",
      from: { path: "^core/" },
      to: { dependencyTypes: ["npm-dev"] },
    },
    {
      name: "the window knows nothing of the desktop, the command line or Node",
      severity: "error",
      from: { path: "^renderer/" },
      to: { path: ["^electron/", "^core/cli/", "^tests/"] },
    },
    {
      name: "the window runs in a browser, without Node",
      severity: "error",
      from: { path: "^renderer/" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "of the window the desktop knows the contract only",
      severity: "error",
      from: { path: "^electron/" },
      to: { path: ["^renderer/", "^tests/"], pathNot: "^renderer/document/host/contract\\.ts$" },
    },
    {
      name: "only electron/desktop knows Electron",
      severity: "error",
      from: { path: "^(renderer|electron)/", pathNot: "^electron/desktop/" },
      to: { path: "(^|node_modules/)electron(/|$)", pathNot: "^electron/" },
    },
    {
      name: "the host port knows nothing of the rest of the window",
      severity: "error",
      from: { path: "^renderer/document/host/" },
      to: { path: "^(renderer|core)/", pathNot: "^renderer/document/host/" },
    },
    {
      name: "the document and the worker know nothing of what is on screen",
      severity: "error",
      from: { path: "^renderer/(document|worker)/" },
      to: {
        path: [
          "^renderer/(scene|places|tools|frame|parts|look)/",
          "node_modules/(react|react-dom|@react-three)/",
        ],
      },
    },
    { name: "no circles", severity: "error", from: {}, to: { circular: true } },
    { name: "every import resolves", severity: "error", from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    // TypeScript 7 has no JavaScript interface. Without swc the cruiser reads nothing at all and reports
    // "0 modules, no violations"; tests/house/layers.mjs counts the files for that reason.
    // Two more traps: swc's visitor breaks when loaded through tsx (run the check on plain Node), and this parser
    // gives up at the first .tsx file, so tests/house/import-mirror.mjs puts the bare imports in its place.
    parser: "swc",
    tsPreCompilationDeps: true,
    doNotFollow: { path: "node_modules" },
    exclude: { path: "^out/" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "node", "default"] },
  },
};
