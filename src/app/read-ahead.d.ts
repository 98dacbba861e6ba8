/** A project file read while the page is built (see `scripts/build/read-ahead.ts`). */
declare module '*?read-ahead' {
  const read: {
    readonly file: import('./state/file-path.ts').JsonObject;
    readonly project: import('../core/project/project.ts').Project;
    readonly issues: readonly import('../core/issue.ts').Issue[];
  };
  export default read;
}
