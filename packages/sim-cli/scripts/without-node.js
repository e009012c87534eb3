import { isBuiltin } from "node:module";

/** For programs of a page. Nothing of Node is used there; what other users of a file want of it may be left out. */
export const withoutNode = {
  name: "without-node",
  setup({ onResolve }) {
    onResolve({ filter: /^node:|^[a-z_]+$/ }, ({ path }) =>
      isBuiltin(path) ? { path, external: true, sideEffects: false } : undefined,
    );
  },
};
