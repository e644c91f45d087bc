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
      output: {
        entryFileNames: "bench.js",
        chunkFileNames: "[name].js",
        assetFileNames: "[name][extname]",
      },
    },
  },
});
