("(" @open ")" @close)
