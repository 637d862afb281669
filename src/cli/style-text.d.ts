/** A style sheet as its text, put in by the bundler. */
declare module '*.css?raw' {
  const text: string;
  export default text;
}
