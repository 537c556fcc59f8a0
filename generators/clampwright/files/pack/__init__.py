"""What a shop is handed: one zip of drawings, solids, cutting files, lists, an inspection page, a read-me."""
