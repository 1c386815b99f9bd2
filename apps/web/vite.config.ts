import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

export default defineConfig({
  // Any address: the app may lie in a folder of a station's own server.
  base: "./",
  plugins: [
    react(),
    VitePWA({
      registerType: "prompt",
      injectRegister: null,
      includeAssets: ["icon.svg"],
      workbox: { globPatterns: ["**/*.{js,css,html,svg,woff2,txt}"], cleanupOutdatedCaches: true },
      manifest: {
        name: "Gantline",
        short_name: "Gantline",
        description: "Plan rope work over an aerial ladder used as a high directional.",
        display: "standalone",
        start_url: "./",
        background_color: "#faf6ea",
        theme_color: "#faf6ea",
        icons: [{ src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
      },
    }),
  ],
  build: { target: "es2022", sourcemap: false },
});
