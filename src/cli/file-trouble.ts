/** What the system said about a file, as a sentence. */
export function fileTrouble(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  const known: Readonly<Record<string, string>> = {
    ENOENT: 'there is no such file.',
    EISDIR: 'this is a folder; a project file was expected.',
    ENOTDIR: 'part of this path is a file, not a folder.',
    EACCES: 'reading or writing here is not allowed.',
    EPERM: 'reading or writing here is not allowed.',
    EROFS: 'this place can only be read.',
    ENOSPC: 'there is no room left on this disk.',
  };
  return known[code ?? ''] ?? message;
}
