// Package keep holds results of long computations in a program folder, so that a second run costs only what changed.
//
// A stale number is worse than a slow one. An entry is found again only by everything that its computation reads: the
// program's executable, the kind of result, and its inputs, written out whole (see Encode). Whoever calls Result hands its
// computation those inputs and nothing else, so that nothing which is read can be missing from the key. Content counts, not
// names and dates of files: a log enters by its digest.
//
// The folder is .wingproof/results in the program folder, one file an entry, named by its kind and the SHA-256 of its key:
//
//	"wingproof kept result\n"   22 bytes
//	format                      4 bytes, little endian: the number of this layout
//	length, key                 8 bytes, little endian, then the key: executable, kind, types, inputs
//	length, value               8 bytes, little endian, then the result
//	SHA-256                     32 bytes, over all before
//
// A file that is damaged, cut short, foreign, of another format or of another key counts as absent and is written anew.
// Files are replaced as a whole, so that several processes may use one folder. A folder that cannot be written works without
// keeping, and the whole of .wingproof may be deleted at any time. Nothing here is an error for the user.
package keep
