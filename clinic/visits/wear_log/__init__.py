"""The wear log of a stoma: its page, how it is typed, how several sources become one."""
