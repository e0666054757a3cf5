/** When and from what the app was built; written into the code by the build. */
declare const __BUILD__: string;
