import { defineConfig } from "vite";

// Names without hashes and no source maps: the built files lie in the package and are compared.
export default defineConfig({
  base: "./",
  worker: { format: "es", rollupOptions: { output: { entryFileNames: "[name].js" } } },
  build: {
    outDir: "../src/claspwright/web/static",
    emptyOutDir: true,
    target: "es2022",
    modulePreload: false,
    chunkSizeWarningLimit: 1500,
    rollupOptions: {
      input: { index: "index.html", early: "src/early.ts" },
      output: {
        entryFileNames: ({ name }) => (name === "index" ? "bench.js" : "[name].js"),
        chunkFileNames: "[name].js",
        assetFileNames: "[name][extname]",
      },
    },
  },
});
